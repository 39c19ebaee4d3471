namespace CoatScan.Metrics.Color;

/// <summary>Linear sRGB to CIE XYZ and CIELAB, one color at a time, white D65.</summary>
/// <remarks>
/// <para>The matrix follows from the sRGB primaries and the white x 0.3127, y 0.3290. The reference white is the sum of its
/// columns, so that equal red, green and blue have a* = b* = 0 exactly.</para>
/// <para>Sources: IEC 61966-2-1 (primaries and white); CIE 15 / ISO 11664-4 (CIELAB, with the exact constants 216/24389
/// and 24389/27).</para>
/// </remarks>
public static class CieLab
{
    /// <summary>Tristimulus values of the white, D65.</summary>
    public static XyzColor White { get; } = ToXyz(1.0, 1.0, 1.0);

    /// <summary>Share of linear red in the luminance Y.</summary>
    public const double RedLuminance = 0.2126390;

    /// <summary>Share of linear green in the luminance Y.</summary>
    public const double GreenLuminance = 0.7151687;

    /// <summary>Share of linear blue in the luminance Y.</summary>
    public const double BlueLuminance = 0.0721923;

    internal const double XOfRed = 0.4123908;
    internal const double XOfGreen = 0.3575843;
    internal const double XOfBlue = 0.1804808;
    internal const double ZOfRed = 0.0193308;
    internal const double ZOfGreen = 0.1191948;
    internal const double ZOfBlue = 0.9505322;

    /// <summary>Below this ratio to white the cube root is replaced by a line.</summary>
    internal const double LinearBelow = 216.0 / 24389.0;

    /// <summary>Slope of that line before its division by 116.</summary>
    internal const double Kappa = 24389.0 / 27.0;

    /// <summary>Tristimulus values of linear sRGB, each channel [0, 1].</summary>
    public static XyzColor ToXyz(double red, double green, double blue) => new(
        (XOfRed * red) + (XOfGreen * green) + (XOfBlue * blue),
        (RedLuminance * red) + (GreenLuminance * green) + (BlueLuminance * blue),
        (ZOfRed * red) + (ZOfGreen * green) + (ZOfBlue * blue));

    /// <summary>CIELAB of tristimulus values.</summary>
    public static LabColor FromXyz(XyzColor color)
    {
        var x = Compress(color.X / White.X);
        var y = Compress(color.Y / White.Y);
        var z = Compress(color.Z / White.Z);
        return new((116.0 * y) - 16.0, 500.0 * (x - y), 200.0 * (y - z));
    }

    /// <summary>CIELAB of linear sRGB, each channel [0, 1].</summary>
    public static LabColor FromLinear(double red, double green, double blue) => FromXyz(ToXyz(red, green, blue));

    /// <summary>CIELAB of 8-bit sRGB.</summary>
    public static LabColor FromSrgb(byte red, byte green, byte blue) => FromLinear(
        SrgbTransfer.ToLinear(red / 255.0),
        SrgbTransfer.ToLinear(green / 255.0),
        SrgbTransfer.ToLinear(blue / 255.0));

    /// <summary>Linear sRGB of a color, the inverse of <see cref="FromLinear"/>; outside [0, 1] for a color that sRGB lacks.</summary>
    public static (double Red, double Green, double Blue) ToLinear(LabColor color)
    {
        var fy = (color.L + 16.0) / 116.0;
        var x = White.X * Expand(fy + (color.A / 500.0));
        var y = White.Y * Expand(fy);
        var z = White.Z * Expand(fy - (color.B / 200.0));

        // Inverse of the matrix, 7 decimals.
        return (
            (3.2409699 * x) - (1.5373832 * y) - (0.4986108 * z),
            (-0.9692436 * x) + (1.8759675 * y) + (0.0415551 * z),
            (0.0556301 * x) - (0.2039770 * y) + (1.0569715 * z));
    }

    private static double Expand(double root) =>
        root * root * root is > LinearBelow and var cube ? cube : ((116.0 * root) - 16.0) / Kappa;

    private static double Compress(double ratio) =>
        ratio > LinearBelow ? Math.Cbrt(ratio) : ((Kappa * ratio) + 16.0) / 116.0;
}
