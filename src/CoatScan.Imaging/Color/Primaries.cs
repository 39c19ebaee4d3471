namespace CoatScan.Imaging.Color;

/// <summary>CIE 1931 chromaticities of an RGB space.</summary>
internal sealed record Primaries(
    double RedX, double RedY, double GreenX, double GreenY, double BlueX, double BlueY, double WhiteX, double WhiteY)
{
    // D65 as sRGB defines it.
    private const double D65X = 0.3127;
    private const double D65Y = 0.3290;

    /// <summary>IEC 61966-2-1, the primaries of ITU-R BT.709; from memory.</summary>
    public static Primaries Srgb { get; } = new(0.64, 0.33, 0.30, 0.60, 0.15, 0.06, D65X, D65Y);

    /// <summary>SMPTE RP 431-2 primaries with D65; from memory.</summary>
    public static Primaries DisplayP3 { get; } = new(0.680, 0.320, 0.265, 0.690, 0.150, 0.060, D65X, D65Y);

    /// <summary>Adobe RGB (1998) Color Image Encoding, 2005; from memory.</summary>
    public static Primaries AdobeRgb { get; } = new(0.64, 0.33, 0.21, 0.71, 0.15, 0.06, D65X, D65Y);

    private static readonly Matrix3 XyzToSrgb = Srgb.ToXyz().Invert();

    // The cone space of the Bradford transform: ICC.1 annex E, from memory.
    private static readonly Matrix3 Bradford = new(
        0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296);

    /// <summary>Every chromaticity lies in the plane and the primaries span a triangle.</summary>
    public bool IsPlausible =>
        WhiteX > 0.1 && WhiteY > 0.1 && RedY >= 0 && GreenY > 0 && BlueY >= 0
        && RedX is >= 0 and <= 1 && GreenX is >= 0 and <= 1 && BlueX is >= 0 and <= 1
        && WhiteX + WhiteY < 1
        && Math.Abs(((RedX - BlueX) * (GreenY - BlueY)) - ((GreenX - BlueX) * (RedY - BlueY))) > 0.01;

    /// <summary>From linear light of these primaries to linear sRGB, adapted to D65.</summary>
    public Matrix3 ToSrgb() => XyzToSrgbAdapted(ToXyz());

    /// <summary>From linear RGB to linear sRGB, for a matrix to XYZ under any white: white stays white exactly.</summary>
    public static Matrix3 XyzToSrgbAdapted(Matrix3 toXyz)
    {
        var source = Bradford * toXyz;
        var (l1, m1, s1) = source.Apply(1, 1, 1);
        var (l2, m2, s2) = Bradford.Apply(D65X / D65Y, 1, (1 - D65X - D65Y) / D65Y);
        return XyzToSrgb * (Bradford.Invert() * (Matrix3.Diagonal(l2 / l1, m2 / m1, s2 / s1) * source));
    }

    private Matrix3 ToXyz()
    {
        var columns = new Matrix3(
            RedX, GreenX, BlueX, RedY, GreenY, BlueY, 1 - RedX - RedY, 1 - GreenX - GreenY, 1 - BlueX - BlueY);
        var (r, g, b) = columns.Invert().Apply(WhiteX / WhiteY, 1, (1 - WhiteX - WhiteY) / WhiteY);
        return columns * Matrix3.Diagonal(r, g, b);
    }
}
