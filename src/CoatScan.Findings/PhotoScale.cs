namespace CoatScan.Findings;

/// <summary>Scale of a photo.</summary>
/// <param name="Source">Where the scale comes from.</param>
/// <param name="MmPerPx">Millimeters per pixel of the oriented original photo, above 0; null if unknown.</param>
public sealed record PhotoScale(ScaleSource Source, double? MmPerPx)
{
    /// <summary>Tilt of the panel as a scale card in the photo shows it, degrees, [0, 90); null without a card.</summary>
    public double? TiltDegrees { get; init; }

    /// <summary>No scale.</summary>
    public static PhotoScale Unknown { get; } = new(ScaleSource.None, null);
}
