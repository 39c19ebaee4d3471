namespace CoatScan.Findings;

/// <summary>Readings taken at the car.</summary>
public sealed record Readings
{
    /// <summary>No readings.</summary>
    public static Readings None { get; } = new();

    /// <summary>Film thickness of the panel, micrometers, each (0, 10000].</summary>
    public IReadOnlyList<double> FilmUm { get; init; } = [];

    /// <summary>Gloss at 60 degrees, gloss units, [0, 200]; null if not read.</summary>
    public double? Gloss60 { get; init; }

    /// <summary>CIEDE2000 color difference to the neighbor panel, [0, 100]; null if not read.</summary>
    public double? DeltaE00 { get; init; }

    /// <summary>Depth of the fault below the surface, micrometers, (0, 1000]; null if not measured.</summary>
    public double? FaultDepthUm { get; init; }

    /// <summary>Film readings of other panels of the same vehicle.</summary>
    public IReadOnlyList<PanelFilm> FilmPanels { get; init; } = [];
}
