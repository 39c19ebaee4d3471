using CoatScan.Findings;
using CoatScan.Imaging.Cards;
using CoatScan.Metrics;
using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Zones;

namespace CoatScan.Imaging;

/// <summary>A photo ready to be measured, and what can be said about it as a photo.</summary>
/// <remarks>
/// Disposing hands the memory of the planes, 96 MB for a large photo, to the next photo; nothing may touch the planes after. A photo
/// that is not disposed is the garbage collector's.
/// </remarks>
/// <param name="Planes">Oriented, linear, white-balanced planes at working size.</param>
/// <param name="Capture">Sharpness and exposure of those planes.</param>
/// <param name="Report">Digest, size, capture time, scale and what limits trust in the photo.</param>
/// <param name="Color">What was done to the color on the way.</param>
public sealed record NormalizedPhoto(
    PanelPlanes Planes, CaptureReading Capture, PhotoReport Report, ColorTreatment Color) : IDisposable
{
    private int _isGivenBack;

    /// <summary>The scale card in the photo; null if none was found.</summary>
    public CardReading? Card { get; init; }

    /// <summary>What storing did to the colors of the zones that were named; null if none were.</summary>
    public StoredZones? Stored { get; init; }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (Interlocked.Exchange(ref _isGivenBack, 1) == 0)
        {
            Planes.GiveBack();
        }
    }
}
