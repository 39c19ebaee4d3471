namespace CoatScan.Metrics.Quality;

/// <summary>How a photo was taken: what its own judgment and the metrics of the panel both need, measured once.</summary>
/// <param name="Sharpness">Sharpness of the sharpest edges; null where too few edges stand out.</param>
/// <param name="Exposure">Exposure of the photo.</param>
public sealed record CaptureReading(SharpnessReading? Sharpness, ExposureReading Exposure)
{
    /// <summary>Noise, see <see cref="PhotoNoise"/>; null where it cannot show.</summary>
    public double? NoiseLightness { get; init; }

    /// <summary>Share of the photo with the lattice of a display, see <see cref="ScreenPattern"/>; null where it cannot show.</summary>
    public double? ScreenShare { get; init; }

    /// <summary>How far tones bend, see <see cref="TonalStructure"/>; null where the photo is too small.</summary>
    public double? Structure { get; init; }

    /// <summary>Measures a panel's photo.</summary>
    /// <exception cref="ArgumentException">There is not one clipped flag a pixel.</exception>
    public static CaptureReading Of(PanelPlanes panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return new(PhotoSharpness.Measure(panel.Lightness), Quality.Exposure.Measure(panel.Lightness, panel.Clipped))
        {
            NoiseLightness = PhotoNoise.Measure(panel.Lightness, panel.Clipped),
            ScreenShare = ScreenPattern.Measure(panel),
            Structure = TonalStructure.Measure(panel.Lightness),
        };
    }
}
