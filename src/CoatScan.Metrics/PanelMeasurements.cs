using CoatScan.Findings;

namespace CoatScan.Metrics;

/// <summary>Everything that was measured on one photo of a panel.</summary>
public sealed record PanelMeasurements
{
    /// <summary>Every metric of the set, in a fixed order, each a value or the reason why there is none.</summary>
    public required IReadOnlyList<Measurement> Measurements { get; init; }

    /// <summary>Spots, largest first; boxes in pixels of the planes.</summary>
    public required IReadOnlyList<Mark> Spots { get; init; }

    /// <summary>Courses of the reflected edges along which waviness was read, longest first; points in pixels of the planes.</summary>
    public IReadOnlyList<IReadOnlyList<(double X, double Y)>> ReflectedEdges { get; init; } = [];
}
