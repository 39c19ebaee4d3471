using System.Numerics;

namespace CoatScan.DemoPanels.Surface;

/// <summary>Soft steps.</summary>
internal static class Ramp
{
    /// <summary>0 below <paramref name="low"/>, 1 above <paramref name="high"/>, smooth between; falls if low is above high.</summary>
    public static float Smooth(float low, float high, float value)
    {
        var t = Math.Clamp((value - low) / (high - low), 0f, 1f);
        return t * t * (3f - (2f * t));
    }

    /// <summary>The same for several values at a time.</summary>
    public static Vector<float> Smooth(Vector<float> low, Vector<float> high, Vector<float> value)
    {
        var t = Vector.Min(Vector<float>.One, Vector.Max(Vector<float>.Zero, (value - low) / (high - low)));
        return t * t * (new Vector<float>(3f) - (t + t));
    }

    public static float Mix(float a, float b, float weight) => a + ((b - a) * weight);
}
