namespace CoatScan.Findings;

/// <summary>One thing that can be seen on a panel, how probable it is and where it shows.</summary>
public sealed record VisualClassShare
{
    /// <summary>Id of the visual class, for example <c>rings</c>.</summary>
    public required string VisualClass { get; init; }

    /// <summary>Calibrated probability, [0, 1].</summary>
    public required double Probability { get; init; }

    /// <summary>Where it shows; may be empty.</summary>
    public IReadOnlyList<Region> Regions { get; init; } = [];

    /// <summary>Fraction of the photo area in <see cref="Regions"/>, [0, 1].</summary>
    public double AreaFraction { get; init; }
}
