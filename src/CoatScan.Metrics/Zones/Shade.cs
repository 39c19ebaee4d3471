using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>Whether one color is another one in more or less of the same light.</summary>
/// <remarks>
/// More light multiplies X, Y and Z alike; by the cube roots of CIELAB (L* + 16), a* and b* are then multiplied alike as well. What is
/// left of a* and b* after that is no matter of brightness. Exact where no value lies on the line below 216/24389 of white. Source: the
/// CIELAB formulas of CIE 15; the limits are our own.
/// </remarks>
internal static class Shade
{
    private const double LargestRest = 2.5;
    private const double LargestLuminanceRatio = 1.25;

    /// <summary>The second differs from the first in brightness alone, and by over 25 % of luminance.</summary>
    internal static bool IsStrong(LabColor first, LabColor second)
    {
        var luminance = Math.Pow(Ratio(first, second), 3.0);
        return Rest(first, second) < LargestRest
            && luminance is > LargestLuminanceRatio or < 1.0 / LargestLuminanceRatio;
    }

    /// <summary>The two are nearly one color, brightness and all.</summary>
    internal static bool IsNear(LabColor first, LabColor second) =>
        Rest(first, second) < LargestRest && !IsStrong(first, second);

    private static double Ratio(LabColor first, LabColor second) => (second.L + 16.0) / (first.L + 16.0);

    private static double Rest(LabColor first, LabColor second)
    {
        var ratio = Ratio(first, second);
        var (a, b) = (second.A - (ratio * first.A), second.B - (ratio * first.B));
        return Math.Sqrt((a * a) + (b * b));
    }
}
