using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Reflection;

/// <summary>Whether a step of light may come from a reflection, by the light that it adds.</summary>
/// <remarks>
/// <para>A clear coat mirrors the surroundings without the paint's color: what the bright side has more is the color of the
/// light. A shadow, a bent panel or a body line changes the light on the paint itself: what it adds has the paint's color.
/// Hence, with c(v) = v / mean(v) - 1 over red, green and blue, c(added) along c(dark side) is near 0 for a reflection and 1
/// for a shadow; the limit is 0.5.</para>
/// <para>On neutral paint color cannot tell. A mirrored share of 0.04 to 0.1 makes a step that stands out only over dark
/// paint, so there the dark side must be under 0.12 of white; on light neutral paint no edge is taken for a
/// reflection.</para>
/// <para>Of surroundings no brighter than a few times white, that share adds at most 0.3; a lamp, hundreds of times brighter,
/// clips. What lies between is a border of paints or the background.</para>
/// <para>Cannot be told apart: on dark neutral paint, a straight border to a somewhat lighter neutral paint, or a straight
/// shadow.</para>
/// <para>Sources: Shafer, Color Research and Application 10(4), 210-218, 1985 (light from a coating is a sum of body and
/// surface reflection; from memory); Fresnel reflectance of n = 1.5. The limits are our own.</para>
/// </remarks>
internal static class ReflectionLook
{
    // Length of c(paint) from which a paint is colored; shade under a blue sky alone gives 0.3.
    private const double ColoredFrom = 0.6;
    private const double LargestShareOfPaintColor = 0.5;
    private const double LargestTint = 0.6;
    private const double DarkPaint = 0.12;
    private const double LeastRatio = 1.15;
    private const double LargestAdded = 0.3;

    /// <summary>Judges linear red, green and blue of the dark and of the bright side.</summary>
    internal static bool IsPlausible(ReadOnlySpan<double> dark, ReadOnlySpan<double> bright, bool isClipped)
    {
        Span<double> added = [bright[0] - dark[0], bright[1] - dark[1], bright[2] - dark[2]];
        var darkMean = Mean(dark);
        var addedMean = Mean(added);
        if (darkMean <= 0.0 || addedMean <= 0.0 || Luminance(bright) < LeastRatio * Luminance(dark)
            || (Luminance(added) > LargestAdded && !isClipped))
        {
            return false;
        }

        var (along, paint, tint) = (0.0, 0.0, 0.0);
        for (var i = 0; i < 3; i++)
        {
            var (ofPaint, ofAdded) = ((dark[i] / darkMean) - 1.0, (added[i] / addedMean) - 1.0);
            along += ofPaint * ofAdded;
            paint += ofPaint * ofPaint;
            tint += ofAdded * ofAdded;
        }

        return Math.Sqrt(tint) <= LargestTint
            && (Math.Sqrt(paint) >= ColoredFrom
                ? Math.Abs(along / paint) <= LargestShareOfPaintColor
                : Luminance(dark) <= DarkPaint);
    }

    internal static double Luminance(ReadOnlySpan<double> color) =>
        (CieLab.RedLuminance * color[0]) + (CieLab.GreenLuminance * color[1]) + (CieLab.BlueLuminance * color[2]);

    private static double Mean(ReadOnlySpan<double> color) => (color[0] + color[1] + color[2]) / 3.0;
}
