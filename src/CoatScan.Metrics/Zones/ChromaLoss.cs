using CoatScan.Findings;
using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>Chroma that a paler zone has lost against a fuller zone of the same hue in the same photo, [0, 1].</summary>
/// <remarks>
/// <para>1 - C*(pale) / C*(full) of the two colors that split the panel best. Fading and haze do this; so can the reflection of a
/// bright sky over one part, which one photo cannot tell apart: compare photos from two sides.</para>
/// <para>Absent: paint with little color of its own (chroma under 12 in the fuller zone); no second zone (closer than 6 Lab units
/// or under 5 % of the area); zones of different hue (over 25 degrees); a paler zone that is also darker, which is shade.</para>
/// <para>Uncertainty: 1.96 standard errors of leaving out one of sixteen bands of the photo at a time, and <see cref="CodingError"/> of
/// both colors.</para>
/// <para>Source: relative comparison inside one photo; the limits are our own.</para>
/// </remarks>
internal static class ChromaLoss
{
    internal const string Metric = "chroma_loss";
    internal const string NoChroma = "the paint has too little color of its own to lose";
    internal const string OneZone = "there is no second zone to compare with";
    internal const string OtherHue = "the second zone has another hue, so it is no paler version of the first";
    internal const string Shade = "the paler zone is darker: shade, not loss of color";

    private const double LeastChroma = 12.0;
    private const double LargestHueStepDegrees = 25.0;

    internal static Measurement Measure(TwoColors colors)
    {
        var (full, pale) = colors.First.Chroma >= colors.Second.Chroma
            ? (colors.First, colors.Second)
            : (colors.Second, colors.First);
        var reason = full.Chroma < LeastChroma ? NoChroma
            : colors.IsOne ? OneZone
            : HueStep(full, pale) > LargestHueStepDegrees ? OtherHue
            : pale.L < full.L ? Shade
            : null;
        if (reason is not null)
        {
            return Measurement.Absent(Metric, "1", reason);
        }

        var value = colors.Estimate((first, second) =>
            1.0 - (Math.Min(first.Chroma, second.Chroma) / Math.Max(first.Chroma, second.Chroma)));
        return Measurement.Of(Metric, value.Value, "1", value.HalfWidth);
    }

    // A zone without chroma has no hue of its own.
    private static double HueStep(LabColor full, LabColor pale)
    {
        if (pale.Chroma < 3.0)
        {
            return 0.0;
        }

        var step = Math.Abs(full.HueDegrees - pale.HueDegrees);
        return Math.Min(step, 360.0 - step);
    }
}
