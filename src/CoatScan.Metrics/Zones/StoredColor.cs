namespace CoatScan.Metrics.Zones;

/// <summary>How well the mean color of a zone survived being stored.</summary>
/// <param name="Rounded">Linear light of the sRGB primaries that the decoder rounded away, to be given back to the mean.</param>
/// <param name="BrightnessStep">Step in which the mean of a coded block knows its brightness, codes of 255; 0 if not coded in blocks.</param>
/// <param name="ColorStep">The same for the two color differences.</param>
public sealed record StoredColor((double Red, double Green, double Blue) Rounded, double BrightnessStep, double ColorStep)
{
    // Half of a decoder's step of one code, on top of the steps at quality 60 with the tables of ITU-T T.81 annex K, 13/8 and 14/8 codes.
    private const double CoarseStep = 2.0;

    /// <summary>Stored without loss: only rounded to 8 bits.</summary>
    public static StoredColor Exact { get; } = new((0.0, 0.0, 0.0), 0.0, 0.0);

    /// <summary>Stored with a loss that nothing tells.</summary>
    public static StoredColor Unknown { get; } = new((0.0, 0.0, 0.0), CoarseStep, CoarseStep);

    /// <summary>The same in other light: what was rounded away, channel by channel times a gain.</summary>
    public StoredColor Times(double red, double green, double blue) =>
        this with { Rounded = (Rounded.Red * red, Rounded.Green * green, Rounded.Blue * blue) };
}
