namespace CoatScan.DemoPanels.Paint;

/// <summary>CIE L*a*b*, D65, from linear sRGB (IEC 61966-2-1 primaries; CIE 15 formulas).</summary>
internal readonly record struct Lab(double L, double A, double B)
{
    public static Lab Of(Rgb color)
    {
        var x = ((0.4124564 * color.R) + (0.3575761 * color.G) + (0.1804375 * color.B)) / 0.95047;
        var y = (0.2126729 * color.R) + (0.7151522 * color.G) + (0.0721750 * color.B);
        var z = ((0.0193339 * color.R) + (0.1191920 * color.G) + (0.9503041 * color.B)) / 1.08883;
        return new Lab((116 * F(y)) - 16, 500 * (F(x) - F(y)), 200 * (F(y) - F(z)));
    }

    private static double F(double t) => t > 216.0 / 24389.0 ? Math.Cbrt(t) : ((24389.0 / 27.0 * t) + 16) / 116;
}
