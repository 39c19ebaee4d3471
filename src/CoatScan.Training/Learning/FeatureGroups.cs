using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>Which columns a photo model reads; the ablation compares them.</summary>
internal sealed record FeatureGroups(string Name, IReadOnlyList<string> Columns)
{
    public static FeatureGroups Hand { get; } = new("hand-made only", [nameof(PhotoRow.Hand)]);

    public static FeatureGroups Answer { get; } = new("network's answer for the picture", [nameof(PhotoRow.Answer)]);

    public static FeatureGroups AnswerAndCells { get; } =
        new("network's answers for picture and cells", [nameof(PhotoRow.Answer), nameof(PhotoRow.CellPeaks)]);

    public static FeatureGroups AnswerCellsAndHand { get; } = new(
        "network's answers, and hand-made", [nameof(PhotoRow.Answer), nameof(PhotoRow.CellPeaks), nameof(PhotoRow.Hand)]);

    public static FeatureGroups Network { get; } = new(
        "network's answers and features",
        [nameof(PhotoRow.Answer), nameof(PhotoRow.CellPeaks), nameof(PhotoRow.Mean), nameof(PhotoRow.Peak)]);

    public static FeatureGroups All { get; } = new(
        "network's answers and features, and hand-made",
        [
            nameof(PhotoRow.Answer), nameof(PhotoRow.CellPeaks), nameof(PhotoRow.Mean), nameof(PhotoRow.Peak),
            nameof(PhotoRow.Hand),
        ]);

    /// <summary>What is compared.</summary>
    public static IReadOnlyList<FeatureGroups> Compared { get; } =
        [Hand, Answer, AnswerAndCells, AnswerCellsAndHand, Network, All];

    /// <summary>What the shipped model reads: nothing else has earned its place (see the card).</summary>
    public static FeatureGroups Shipped => Answer;
}
