namespace CoatScan.Training.Learning;

/// <summary>Which columns a photo model reads; the ablation compares them.</summary>
internal sealed record FeatureGroups(string Name, IReadOnlyList<string> Columns)
{
    public static FeatureGroups Measured { get; } = new("measurements only", [nameof(TrainingRow.Measured)]);

    public static FeatureGroups Answer { get; } = new("network's answer for the picture", [nameof(TrainingRow.Answer)]);

    public static FeatureGroups AnswerAndCells { get; } =
        new("network's answers for picture and cells", [nameof(TrainingRow.Answer), nameof(TrainingRow.CellPeaks)]);

    public static FeatureGroups AnswerCellsAndMeasured { get; } = new(
        "network's answers, and measurements", [nameof(TrainingRow.Answer), nameof(TrainingRow.CellPeaks), nameof(TrainingRow.Measured)]);

    public static FeatureGroups Network { get; } = new(
        "network's answers and features",
        [nameof(TrainingRow.Answer), nameof(TrainingRow.CellPeaks), nameof(TrainingRow.Mean), nameof(TrainingRow.Peak)]);

    public static FeatureGroups All { get; } = new(
        "network's answers and features, and measurements",
        [
            nameof(TrainingRow.Answer), nameof(TrainingRow.CellPeaks), nameof(TrainingRow.Mean), nameof(TrainingRow.Peak),
            nameof(TrainingRow.Measured),
        ]);

    /// <summary>What is compared.</summary>
    public static IReadOnlyList<FeatureGroups> Compared { get; } =
        [Measured, Answer, AnswerAndCells, AnswerCellsAndMeasured, Network, All];

    /// <summary>What the shipped model reads: nothing else has earned its place (see the card).</summary>
    public static FeatureGroups Shipped => Answer;
}
