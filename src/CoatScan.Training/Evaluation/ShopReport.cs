namespace CoatScan.Training.Evaluation;

/// <summary>A shop's own photos beside the renders: what was learned from, and what the rest of them says about it.</summary>
internal sealed record ShopReport
{
    /// <summary>Photos that taught.</summary>
    public required int TrainingPhotos { get; init; }

    /// <summary>What each of them counted, a rendered panel being 1.</summary>
    public required double Weight { get; init; }

    /// <summary>Photos of other groups, which judged.</summary>
    public required int HeldOutPhotos { get; init; }

    /// <summary>Groups of those.</summary>
    public required int HeldOutGroups { get; init; }

    /// <summary>Macro-F1 of the taught model on them.</summary>
    public required double MacroF1 { get; init; }

    /// <summary>Macro-F1 of the shipped model on them.</summary>
    public required double ShippedMacroF1 { get; init; }

    /// <summary>Mean log loss of the taught model on them, natural logarithm.</summary>
    public required double LogLoss { get; init; }

    /// <summary>The same of the shipped model.</summary>
    public required double ShippedLogLoss { get; init; }

    /// <summary>Macro-F1 of the taught model on held-out renders.</summary>
    public required double RenderedMacroF1 { get; init; }

    /// <summary>The same of the shipped model.</summary>
    public required double ShippedRenderedMacroF1 { get; init; }
}
