using System.Numerics;
using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Zones;

/// <summary>How far a color lies inside the colors of rust, or of brown and yellow stains, Lab units; below 0 outside.</summary>
/// <remarks>
/// <para>Rust: hue 30 to 75 degrees, chroma 16 to 60, lightness 8 to 62 (iron oxides and hydroxides, from brown-black scab to orange
/// bloom). Stain: hue 75 to 105 degrees, chroma 12 to 60, lightness 15 to 85 (resin, fuel, yellowed polish, soil). Both must be
/// 12 units warmer than the coolest tenth of the panel along the direction of 55 degrees in a*, b*: warm light shifts the whole panel.</para>
/// <para>The margin is the distance to the nearest of these limits. Source: the limits are our own.</para>
/// </remarks>
internal static class WarmColors
{
    internal const double CoolShare = 0.1;
    internal const float LeastExcessWarmth = 12.0f;

    private const float CosineOfAxis = 0.5735764f;
    private const float SineOfAxis = 0.8191520f;

    internal static float Warmth(float a, float b) => (CosineOfAxis * a) + (SineOfAxis * b);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector<float> Warmth(Vector<float> a, Vector<float> b) => (CosineOfAxis * a) + (SineOfAxis * b);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector<float> RustMargin(Vector<float> l, Vector<float> a, Vector<float> b, float leastWarmth)
    {
        var chroma = Vector.SquareRoot((a * a) + (b * b));
        var margin = Vector.Min(Vector.Min(chroma - new Vector<float>(16.0f), new Vector<float>(60.0f) - chroma), Vector.Min(l - new Vector<float>(8.0f), new Vector<float>(62.0f) - l));

        // Distances to the rays of 30 and 75 degrees.
        margin = Vector.Min(margin, (0.8660254f * b) - (0.5f * a));
        margin = Vector.Min(margin, (0.9659258f * a) - (0.2588190f * b));
        return Vector.Min(margin, Warmth(a, b) - new Vector<float>(leastWarmth));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector<float> StainMargin(Vector<float> l, Vector<float> a, Vector<float> b, float leastWarmth)
    {
        var chroma = Vector.SquareRoot((a * a) + (b * b));
        var margin = Vector.Min(Vector.Min(chroma - new Vector<float>(12.0f), new Vector<float>(60.0f) - chroma), Vector.Min(l - new Vector<float>(15.0f), new Vector<float>(85.0f) - l));

        // Distances to the rays of 75 and 105 degrees.
        margin = Vector.Min(margin, (0.2588190f * b) - (0.9659258f * a));
        margin = Vector.Min(margin, (0.2588190f * b) + (0.9659258f * a));
        return Vector.Min(margin, Warmth(a, b) - new Vector<float>(leastWarmth));
    }
}
