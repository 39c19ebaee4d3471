using System.Runtime.CompilerServices;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Zones;

/// <summary>Share of the panel that has the color of iron rust, [0, 1].</summary>
/// <remarks>
/// <para>A pixel counts if its hue is 30 to 75 degrees, its chroma 16 to 60, its lightness 8 to 62 and it is at least 12 units
/// warmer than the coolest tenth of the panel along the direction of 55 degrees in a*, b*. The comparison is what keeps warm
/// light out: it shifts the whole panel.</para>
/// <para>Absent where even the coolest tenth is warm (12 units): under a warm light, on warm paint or on a panel that is rust all
/// over the photo has nothing to compare with. Also absent if more than half is clipped or the photo is too dark for hue.</para>
/// <para>It is a color, not a substance: undercoat, soil and wood can have it. Rust ratings need the reader's confirmation.</para>
/// <para>Input: CIE a*, b*, L*, D65; every third pixel of every third row. Cost: O(n / 9).</para>
/// <para>Source: the limits are our own; that stains must not be counted as rust: ASTM D610.</para>
/// </remarks>
internal static class RustColor
{
    internal const string Metric = "rust_colored_fraction";

    internal const string AllWarm =
        "the whole panel is warm in color: rust cannot be told from warm light or warm paint";

    internal const string MostlyClipped = "more than half of the panel is clipped to white";
    internal const string TooDark = "the panel is too dark to tell a hue";

    private const float CosineOfAxis = 0.5735764f;
    private const float SineOfAxis = 0.8191520f;
    private const double CoolShare = 0.1;
    private const double LargestCoolWarmth = 12.0;
    private const double LeastExcessWarmth = 12.0;
    private const double LeastLightness = 4.0;

    // Tangents of 30 and 75 degrees.
    private const float LeastSlope = 0.5773503f;
    private const float LargestSlope = 3.7320508f;
    private const float LeastChroma = 16.0f;
    private const float LargestChroma = 60.0f;
    private const float LeastRustLightness = 8.0f;
    private const float LargestRustLightness = 62.0f;

    /// <summary>Share of rust-colored pixels against a reference warmth, whatever the scene.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static double Fraction(PanelPlanes panel, double coolWarmth)
    {
        var least = (float)(coolWarmth + LeastExcessWarmth);
        var (rust, total) = (0, 0);
        for (var y = 0; y < panel.Height; y += 3)
        {
            for (var i = y * panel.Width; i < (y + 1) * panel.Width; i += 3)
            {
                if (panel.Clipped[i])
                {
                    continue;
                }

                total++;
                rust += IsRust(panel.Lightness.Values[i], panel.AStar.Values[i], panel.BStar.Values[i], least) ? 1 : 0;
            }
        }

        return total == 0 ? 0.0 : (double)rust / total;
    }

    private static bool IsRust(float lightness, float a, float b, float leastWarmth)
    {
        var chromaSquare = (a * a) + (b * b);
        return a > 0.0f
            && b >= LeastSlope * a && b <= LargestSlope * a
            && chromaSquare >= LeastChroma * LeastChroma && chromaSquare <= LargestChroma * LargestChroma
            && lightness >= LeastRustLightness && lightness <= LargestRustLightness
            && (CosineOfAxis * a) + (SineOfAxis * b) >= leastWarmth;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static double CoolWarmth(PanelPlanes panel)
    {
        var histogram = new ValueHistogram(-120.0f, 120.0f, 2400);
        for (var y = 0; y < panel.Height; y += 3)
        {
            for (var i = y * panel.Width; i < (y + 1) * panel.Width; i += 3)
            {
                if (!panel.Clipped[i])
                {
                    histogram.Add((CosineOfAxis * panel.AStar.Values[i]) + (SineOfAxis * panel.BStar.Values[i]));
                }
            }
        }

        return histogram.Quantile(CoolShare);
    }
}
