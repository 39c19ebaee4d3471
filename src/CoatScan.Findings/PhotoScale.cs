namespace CoatScan.Findings;

/// <summary>Scale of a photo.</summary>
/// <param name="Source">Where the scale comes from.</param>
/// <param name="MmPerPx">Millimeters per pixel of the oriented original photo, above 0; null if unknown.</param>
public sealed record PhotoScale(ScaleSource Source, double? MmPerPx)
{
    /// <summary>Tilt of the panel as a scale card in the photo shows it, degrees, [0, 90); null without a card.</summary>
    public double? TiltDegrees { get; init; }

    /// <summary>Relative uncertainty of <see cref="MmPerPx"/> at the card, 95 % half width; for a stated scale, anywhere in the photo if
    /// the camera looked within 10 degrees of square; null without a scale.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>No scale.</summary>
    public static PhotoScale Unknown { get; } = new(ScaleSource.None, null);
}
