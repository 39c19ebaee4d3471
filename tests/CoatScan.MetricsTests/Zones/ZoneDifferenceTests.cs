using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Zones;

namespace CoatScan.MetricsTests.Zones;

public sealed class ZoneDifferenceTests
{
    private static readonly ZonePair Sides = new(new(0, 10, 20, 60, 60), new(0, 130, 20, 60, 60));
    private static readonly StoredZones Exact = new(StoredColor.Exact, StoredColor.Exact);

    // Pairs of the published table (Sharma, Wu and Dalal 2005) that lie inside sRGB and differ in more than brightness; shown in 8 bits.
    [Fact]
    public void Measure_published_pairs_have_their_published_difference()
    {
        var compared = 0;
        foreach (var row in ReferenceData.Read("ciede2000").GetProperty("rows").EnumerateArray().Select(row => row.Doubles()))
        {
            var (first, second) = (new LabColor(row[1], row[2], row[3]), new LabColor(row[4], row[5], row[6]));
            if (!IsShowable(first) || !IsShowable(second))
            {
                continue;
            }

            compared++;
            var results = Measure(Panel((x, _) => x < 100 ? first : second));

            Assert.Equal(row[7], results["color_difference_de00"].Value!.Value, 0.5);
            Assert.Equal(row[7], results["color_difference_de00"].Value!.Value, results["color_difference_de00"].Uncertainty!.Value);
            Assert.Equal(second.L - first.L, results["color_difference_l"].Value!.Value, results["color_difference_l"].Uncertainty!.Value);
            Assert.Equal(second.A - first.A, results["color_difference_a"].Value!.Value, results["color_difference_a"].Uncertainty!.Value);
            Assert.Equal(second.B - first.B, results["color_difference_b"].Value!.Value, results["color_difference_b"].Uncertainty!.Value);
        }

        Assert.InRange(compared, 15, 34);
    }

    [Fact]
    public void Measure_chalked_zone_is_lighter_and_has_less_chroma()
    {
        var results = Measure(Panel((x, _) => x < 100 ? new(40, 50, 30) : new(52, 28, 17)));

        Assert.True(results["color_difference_l"].Value > 10.0);
        Assert.True(results["color_difference_c"].Value < -20.0);
    }

    [Fact]
    public void Measure_same_paint_under_one_light_does_not_differ()
    {
        var result = Measure(Panel((_, _) => new(45, 20, 10)))["color_difference_de00"];

        Assert.InRange(result.Value!.Value, 0.0, result.Uncertainty!.Value);
    }

    [Fact]
    public void Measure_noise_widens_the_uncertainty_and_stays_inside()
    {
        var (first, second) = (new LabColor(45, 20, 10), new LabColor(48, 26, 4));
        var calm = Measure(Panel((x, _) => x < 100 ? first : second))["color_difference_de00"];
        var random = new Random(4);
        var noisy = Measure(Panel((x, _) =>
            (x < 100 ? first : second) is var c ? c with { L = c.L + (12.0 * Pattern.Normal(random)) } : default))["color_difference_de00"];

        Assert.True(noisy.Uncertainty > calm.Uncertainty);
        Assert.Equal(DeltaE2000.Between(first, second), noisy.Value!.Value, noisy.Uncertainty!.Value);
    }

    [Fact]
    public void Measure_gentle_slope_of_light_is_in_the_uncertainty()
    {
        var (first, second) = (new LabColor(45, 20, 10), new LabColor(45, 28, 4));
        var result = Measure(Lit((x, _) => x < 100 ? first : second, (x, _) => 1.0 + (0.0008 * x)))["color_difference_de00"];

        Assert.Equal(DeltaE2000.Between(first, second), result.Value!.Value, result.Uncertainty!.Value);
        Assert.InRange(result.Uncertainty!.Value, 1.0, 5.0);
    }

    public static TheoryData<string, string> Refusals => new()
    {
        { "clipped", ZoneLight.Clipped },
        { "dark", ZoneLight.TooDark },
        { "highlight", ZoneLight.Uneven },
        { "shadow edge in a zone", ZoneLight.Uneven },
        { "steep light", ZoneLight.FallsOff },
        { "shadow over a zone", ZoneLight.OnlyBrightness },
        { "shadow edge between", ZoneLight.EdgeBetween },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public void Measure_zones_in_different_light_are_refused(string scene, string reason)
    {
        LabColor Paint(int x, int _) => x < 100 ? new(45, 20, 10) : new(45, 28, 4);
        LabColor OnePaint(int x, int y) => new(45, 20, 10);
        var panel = scene switch
        {
            "clipped" => Panel((x, _) => x < 30 ? new(100, 0, 0) : new(45, 20, 10)),
            "dark" => Panel((x, _) => x < 100 ? new(3, 0, 0) : new(45, 20, 10)),
            "highlight" => Lit(Paint, (x, y) => 1.0 + (1.5 * Math.Exp(-0.005 * (Math.Pow(x - 40, 2) + Math.Pow(y - 50, 2))))),
            "shadow edge in a zone" => Lit(Paint, (x, _) => x < 40 ? 0.5 : 1.0),
            "steep light" => Lit(Paint, (x, _) => 1.0 - (0.0025 * x)),
            "shadow over a zone" => Lit(OnePaint, (x, _) => x < 100 ? 1.0 : 0.6),
            _ => Lit(Paint, (x, _) => x is > 75 and < 98 ? 0.5 : 1.0),
        };

        Assert.All(Measure(panel).Values, one => Assert.Equal(reason, one.AbsentReason));
    }

    [Fact]
    public void Measure_zone_too_small_on_the_planes_is_refused()
    {
        var panel = Panel((_, _) => new(45, 20, 10));
        var results = ZoneDifference.Measure(panel, new(new(0, 10, 20, 11, 60), Sides.Second), Exact);

        Assert.Equal(8, results.Count);
        Assert.All(results, one => Assert.Equal(ZoneLight.TooSmall, one.AbsentReason));
    }

    [Fact]
    public void Measure_zones_count_in_pixels_of_the_original_photo()
    {
        var (first, second) = (new LabColor(45, 20, 10), new LabColor(45, 28, 4));
        var panel = Panel((x, _) => x < 100 ? first : second) with { OriginalPxPerPx = 2.0 };
        var right = new ZonePair(new(0, 20, 40, 120, 120), new(0, 260, 40, 120, 120));

        Assert.Equal(
            DeltaE2000.Between(first, second), ZoneDifference.Measure(panel, right, Exact)[0].Value!.Value, 0.5);
    }

    [Fact]
    public void Measure_gives_back_what_was_rounded_away_and_doubts_coarse_steps()
    {
        var (first, second) = (new LabColor(45, 20, 10), new LabColor(45, 28, 4));
        var panel = Panel((x, _) => x < 100 ? first : second);
        var (red, green, blue) = CieLab.ToLinear(second);
        var taken = new StoredColor((0.02 * red, -0.01 * green, 0.03 * blue), 0.375, 0.375);
        var moved = CieLab.FromLinear(1.02 * red, 0.99 * green, 1.03 * blue);

        var result = ZoneDifference.Measure(panel, Sides, new(StoredColor.Exact, taken)).ToDictionary(one => one.Metric);

        Assert.Equal(DeltaE2000.Between(first, moved), result["color_difference_de00"].Value!.Value, 0.1);
        Assert.Equal(moved.B - first.B, result["color_difference_b"].Value!.Value, 0.1);
        var doubts = new[] { Exact, new(StoredColor.Exact, taken), StoredZones.Unknown }
            .Select(stored => ZoneDifference.Measure(panel, Sides, stored)[0].Uncertainty!.Value).ToList();
        Assert.True(doubts[0] < doubts[1] && doubts[1] < doubts[2]);
    }

    [Fact]
    public void Measure_swapped_zones_differ_as_much_the_other_way()
    {
        var panel = Panel((x, _) => x < 100 ? new(45, 20, 10) : new(52, 28, 4));
        var there = Measure(panel);
        var back = ZoneDifference.Measure(panel, new(Sides.Second, Sides.First), Exact).ToDictionary(one => one.Metric);

        Assert.Equal(there["color_difference_de00"].Value!.Value, back["color_difference_de00"].Value!.Value, 1e-9);
        Assert.Equal(there["color_difference_l"].Value!.Value, -back["color_difference_l"].Value!.Value, 1e-9);
    }

    [Fact]
    public void ToLinear_is_the_inverse_of_FromLinear()
    {
        foreach (var entry in ReferenceData.Read("srgb_lab").GetProperty("colors").EnumerateArray())
        {
            var linear = entry.GetProperty("linear").Doubles();
            var (red, green, blue) = CieLab.ToLinear(CieLab.FromLinear(linear[0], linear[1], linear[2]));

            Assert.Equal(linear[0], red, 1e-5);
            Assert.Equal(linear[1], green, 1e-5);
            Assert.Equal(linear[2], blue, 1e-5);
        }
    }

    private static bool IsShowable(LabColor color) =>
        CieLab.ToLinear(color) is var (red, green, blue)
        && Math.Min(red, Math.Min(green, blue)) >= 0.0 && Math.Max(red, Math.Max(green, blue)) <= 1.0 && color.L >= 8.0;

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel) =>
        ZoneDifference.Measure(panel, Sides, Exact).ToDictionary(one => one.Metric);

    private static PanelPlanes Panel(Func<int, int, LabColor> color) => Lit(color, (_, _) => 1.0);

    // In 8 bits, behind noise of half a code, as a sensor has at least: without any, rounding alone would be off by half a code.
    private static PanelPlanes Lit(Func<int, int, LabColor> color, Func<int, int, double> light)
    {
        var random = new Random(17);
        var (red, green, blue) = (new Plane(200, 100), new Plane(200, 100), new Plane(200, 100));
        for (var y = 0; y < 100; y++)
        {
            for (var x = 0; x < 200; x++)
            {
                var linear = CieLab.ToLinear(color(x, y));
                var factor = light(x, y);
                red[x, y] = Stored(factor * linear.Red, random);
                green[x, y] = Stored(factor * linear.Green, random);
                blue[x, y] = Stored(factor * linear.Blue, random);
            }
        }

        return Pattern.Panel(red, green, blue);
    }

    private static float Stored(double linear, Random random) => SrgbTransfer.ByteToLinear[
        (int)Math.Clamp(
            Math.Round((255.0 * SrgbTransfer.FromLinear(Math.Max(linear, 0.0))) + (0.5 * Pattern.Normal(random))), 0.0, 255.0)];
}
