namespace CoatScan.Metrics.Color;

/// <summary>A color in CIELAB for illuminant D65 and the 2 degree observer.</summary>
/// <param name="L">CIE L*: 0 black, 100 the reference white.</param>
/// <param name="A">CIE a*: negative green, positive red; about -86 to 98 inside sRGB.</param>
/// <param name="B">CIE b*: negative blue, positive yellow; about -108 to 95 inside sRGB.</param>
public readonly record struct LabColor(double L, double A, double B)
{
    /// <summary>Chroma C*ab, 0 or more.</summary>
    public double Chroma => Math.Sqrt((A * A) + (B * B));

    /// <summary>Hue angle h_ab, degrees, [0, 360); 0 for a color without chroma.</summary>
    public double HueDegrees
    {
        get
        {
            var degrees = Math.Atan2(B, A) * (180.0 / Math.PI);
            return degrees < 0.0 ? degrees + 360.0 : degrees;
        }
    }
}
