using CoatScan.Findings;
using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>CIEDE2000 difference of the two tones that a panel falls into by itself, 0 or more.</summary>
/// <remarks>
/// <para>Background, glass and dirt are tones too: what the tones are, a person has to look at; zones given by the caller
/// (<see cref="ZoneDifference"/>) say more.</para>
/// <para>Absent: no second tone (under 5 % of the area, or closer than 6 Lab units); tones that scatter by more than a third of their
/// distance, so that the split is as good as any other; tones that differ in brightness alone, as in light and shade.</para>
/// <para>Uncertainty: 1.96 standard errors of leaving out one of sixteen bands of the photo at a time, and <see cref="CodingError"/> of
/// both. Comparable within one photo only. Cost: none beside <see cref="TwoColors"/>. Sources: <see cref="DeltaE2000"/>.</para>
/// </remarks>
internal static class TwoTone
{
    internal const string Metric = "two_tone_de00";
    internal const string Scattered = "the panel does not fall into two tones";

    private const double LargestScatterShare = 1.0 / 3.0;

    internal static Measurement Measure(TwoColors colors)
    {
        var reason = colors.IsOne ? ChromaLoss.OneZone
            : colors.Scatter > LargestScatterShare * colors.Distance ? Scattered
            : Shade.IsStrong(colors.First, colors.Second) ? ZoneLight.OnlyBrightness
            : null;
        if (reason is not null)
        {
            return Measurement.Absent(Metric, "1", reason);
        }

        var value = colors.Estimate(DeltaE2000.Between);
        return Measurement.Of(Metric, value.Value, "1", value.HalfWidth);
    }
}
