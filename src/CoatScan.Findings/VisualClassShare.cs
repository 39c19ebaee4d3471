namespace CoatScan.Findings;

/// <summary>One thing that can be seen on a panel, how probable it is and where it shows.</summary>
public sealed record VisualClassShare
{
    /// <summary>Id of the visual class, for example <c>rings</c>.</summary>
    public required string VisualClass { get; init; }

    /// <summary>Calibrated probability, [0, 1].</summary>
    public required double Probability { get; init; }

    /// <summary>
    /// Whether the photos cannot exclude it: it is in the conformal set, whose coverage <see cref="Finding.SetCoverage"/> states for rendered
    /// panels.
    /// </summary>
    public bool Possible { get; init; }

    /// <summary>
    /// Probability that it shows beside the most probable class, [0, 1]; null unless the cells say clearly enough that two faults are there.
    /// </summary>
    public double? BesideProbability { get; init; }

    /// <summary>How far naming this class was checked; null where the model does not say.</summary>
    public ClassCheck? Check { get; init; }

    /// <summary>Where it shows; may be empty.</summary>
    public IReadOnlyList<Region> Regions { get; init; } = [];

    /// <summary>Fraction of the photo area in <see cref="Regions"/>, [0, 1].</summary>
    public double AreaFraction { get; init; }
}
