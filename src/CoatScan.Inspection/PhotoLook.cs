using CoatScan.Classification;
using CoatScan.Findings;
using CoatScan.Imaging.Cards;
using CoatScan.Metrics;

namespace CoatScan.Inspection;

/// <summary>What one photo gave.</summary>
/// <param name="Report">The photo and its limits.</param>
/// <param name="Measurements">What was measured.</param>
/// <param name="Reading">What the classifier sees.</param>
internal sealed record PhotoLook(PhotoReport Report, PanelMeasurements Measurements, VisualReading Reading)
{
    /// <summary>The scale card in the photo; null if none was found.</summary>
    public CardReading? Card { get; init; }

    /// <summary>The scale at every place, in pixels of the oriented original photo; null without a scale.</summary>
    public PlaneScale? Scale { get; init; }

    /// <summary>What the caller's zones of the photo gave; empty if none were asked for.</summary>
    public IReadOnlyList<Measurement> Zones { get; init; } = [];

    /// <summary>Whether what the classifier sees may speak: too poor a photo shows the camera, not the paint.</summary>
    public bool CanSpeak => Reading.IsPanel && !Report.Issues.Any(PhotoGate.Silences);
}
