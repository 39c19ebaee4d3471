using CoatScan.Metrics;

namespace CoatScan.Imaging.Normalizing;

/// <summary>CIE L*a*b* planes under D65 from linear sRGB: CIE 15 and IEC 61966-2-1, from memory.</summary>
internal static class LinearToLab
{
    public static (Plane Lightness, Plane AStar, Plane BStar) Convert(Plane red, Plane green, Plane blue)
    {
        var lightness = new Plane(red.Width, red.Height);
        var aStar = new Plane(red.Width, red.Height);
        var bStar = new Plane(red.Width, red.Height);
        for (int i = 0; i < red.Values.Length; i++)
        {
            float r = red.Values[i];
            float g = green.Values[i];
            float b = blue.Values[i];
            float x = Root(((0.4124564f * r) + (0.3575761f * g) + (0.1804375f * b)) / 0.95047f);
            float y = Root((0.2126729f * r) + (0.7151522f * g) + (0.0721750f * b));
            float z = Root(((0.0193339f * r) + (0.1191920f * g) + (0.9503041f * b)) / 1.08883f);
            lightness.Values[i] = (116 * y) - 16;
            aStar.Values[i] = 500 * (x - y);
            bStar.Values[i] = 200 * (y - z);
        }

        return (lightness, aStar, bStar);
    }

    private static float Root(float t) => t > 216f / 24389 ? MathF.Cbrt(t) : ((24389f / 27 * t) + 16) / 116;
}
