namespace CoatScan.Training.Evaluation;

/// <summary>All that was measured about a model.</summary>
internal sealed record EvaluationReport
{
    public required string ModelVersion { get; init; }

    public required string ModelSha256 { get; init; }

    public required int TrainingPhotos { get; init; }

    /// <summary>Scaling of the log-probabilities, both kinds, and which one is used.</summary>
    public required ScalingReport Scaling { get; init; }

    public required double Lambda { get; init; }

    /// <summary>Renders that trained and calibrated nothing, ordinary camera, at the equal class shares that they have.</summary>
    public required SetReport Rendered { get; init; }

    /// <summary>Others with the harsh camera, which is trained on too.</summary>
    public required SetReport RenderedHarsh { get; init; }

    /// <summary>Others with paints, lights, cameras and things that nothing was trained on.</summary>
    public required SetReport RenderedShifted { get; init; }

    /// <summary>Rendered panels with two faults, beside the held-out ones with one or none.</summary>
    public required SecondFaultReport SecondFault { get; init; }

    /// <summary>Agreement of marked cells with the masks of held-out renders, F1.</summary>
    public required double CellF1 { get; init; }

    /// <summary>Labelled real photos; null when none were given.</summary>
    public required SetReport? Real { get; init; }

    /// <summary>Where the real photos come from.</summary>
    public required string? RealCredit { get; init; }

    /// <summary>Invented pictures without a panel, the whole way of a photo; null when none were sent.</summary>
    public NonPanelReport? NonPanels { get; init; }

    /// <summary>A shop's own photos; null when none were given.</summary>
    public required ShopReport? Shop { get; init; }

    /// <summary>Other kinds of models; empty where none were compared.</summary>
    public required IReadOnlyList<AblationRow> Ablation { get; init; }
}
