namespace CoatScan.Training.Evaluation;

/// <summary>All that was measured about a model.</summary>
internal sealed record EvaluationReport
{
    public required string ModelVersion { get; init; }

    public required string ModelSha256 { get; init; }

    public required int TrainingPhotos { get; init; }

    public required double Temperature { get; init; }

    public required double Lambda { get; init; }

    /// <summary>Renders that trained and calibrated nothing, all, at the equal class shares that they have.</summary>
    public required SetReport Rendered { get; init; }

    /// <summary>The same with probabilities as they come, at the class shares of training.</summary>
    public required SetReport RenderedAsExpected { get; init; }

    /// <summary>Those of them with the ordinary camera.</summary>
    public required SetReport RenderedOrdinary { get; init; }

    /// <summary>Those of them with the harsh camera.</summary>
    public required SetReport RenderedHarsh { get; init; }

    /// <summary>Agreement of marked tiles with the masks of held-out renders, F1.</summary>
    public required double CellF1 { get; init; }

    /// <summary>Labelled real photos; null when none were given.</summary>
    public required SetReport? Real { get; init; }

    /// <summary>Where the real photos come from.</summary>
    public required string? RealCredit { get; init; }

    public required IReadOnlyList<AblationRow> Ablation { get; init; }
}
