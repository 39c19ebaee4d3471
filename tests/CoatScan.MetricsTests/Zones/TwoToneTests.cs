using CoatScan.Metrics.Color;
using CoatScan.Metrics.Zones;

namespace CoatScan.MetricsTests.Zones;

public sealed class TwoToneTests
{
    [Fact]
    public void Measure_two_paints_have_their_published_difference()
    {
        // Pair 20 of Sharma, Wu and Dalal 2005: 19.4535.
        var result = TwoTone.Measure(Split(new(50.0, 2.5, 0.0), new(58.0, 24.0, 15.0), 0.0));

        Assert.Equal(19.4535, result.Value!.Value, 0.3);
        Assert.InRange(result.Uncertainty!.Value, 0.1, 2.0);
    }

    [Fact]
    public void Measure_one_paint_has_no_second_tone() => Assert.Equal(
        ChromaLoss.OneZone, TwoTone.Measure(Split(new(50.0, 2.5, 0.0), new(51.0, 3.5, 0.0), 0.0)).AbsentReason);

    [Fact]
    public void Measure_light_and_shade_are_no_two_paints()
    {
        var (red, green, blue) = CieLab.ToLinear(new(50.0, 20.0, 10.0));
        var shaded = CieLab.FromLinear(0.5 * red, 0.5 * green, 0.5 * blue);

        Assert.Equal(
            ZoneLight.OnlyBrightness, TwoTone.Measure(Split(new(50.0, 20.0, 10.0), shaded, 0.0)).AbsentReason);
    }

    [Fact]
    public void Measure_speckled_panel_does_not_fall_into_two() => Assert.Equal(
        TwoTone.Scattered, TwoTone.Measure(Split(new(50.0, 2.5, 0.0), new(55.0, 12.0, 0.0), 9.0)).AbsentReason);

    [Fact]
    public void Estimate_bands_that_differ_widen_the_interval()
    {
        var calm = TwoTone.Measure(Split(new(50.0, 2.5, 0.0), new(58.0, 24.0, 15.0), 0.0));
        var sloped = TwoTone.Measure(Split(new(50.0, 2.5, 0.0), new(58.0, 24.0, 15.0), 0.0, slope: 20.0));

        Assert.True(sloped.Uncertainty > 1.5 * calm.Uncertainty);
    }

    private static TwoColors Split(LabColor first, LabColor second, double noise, double slope = 0.0)
    {
        var random = new Random(3);
        CoatScan.Metrics.Plane Channel(Func<LabColor, double> part, bool isLightness) => Pattern.Draw(
            120, 96, (x, y) => part(x < 48 ? second : first)
                + (noise * Pattern.Normal(random))
                + (isLightness && x < 48 ? slope * y / 96.0 : 0.0));
        return TwoColors.Of(new(
            Channel(color => color.L, true), Channel(color => color.A, false), Channel(color => color.B, false)));
    }
}
