using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Zones;

namespace CoatScan.MetricsTests.Zones;

public sealed class ZoneTextureTests
{
    private static readonly ZonePair Sides = new(new(0, 10, 20, 80, 80), new(0, 110, 20, 80, 80));
    private static readonly StoredZones Exact = new(StoredColor.Exact, StoredColor.Exact);

    // White noise of 1 and 3 L* in the two zones: rms steps are in the ratio 3, the grain is alike.
    [Fact]
    public void Measure_stronger_grain_of_one_size_is_stronger_and_no_finer()
    {
        var random = new Random(5);
        var results = Measure(Pattern.Draw(200, 120, (x, _) => (x < 100 ? 1.0 : 3.0) * Pattern.Normal(random)));

        AssertWithin(3.0, results[ZoneTexture.Contrast]);
        AssertWithin(0.0, results[ZoneTexture.Correlation]);
        AssertWithin(0.0, results[ZoneTexture.Uniform], slack: 0.03);
    }

    // Noise smoothed by a Gaussian of sigma px has the correlation exp(-d^2 / (4 sigma^2)) (as in surface.json): 0.37 at 2 px for 1 px, 0.89
    // for 3 px.
    [Fact]
    public void Measure_coarser_grain_is_coarser_by_the_closed_form()
    {
        var (fine, coarse) = (Smooth(1.0, 1.5, seed: 1), Smooth(3.0, 1.5, seed: 2));
        var results = Measure(Pattern.Draw(200, 120, (x, y) => x < 100 ? fine[x, y] : coarse[x, y]));

        AssertWithin(Math.Exp(-4.0 / 36.0) - Math.Exp(-1.0), results[ZoneTexture.Correlation], slack: 0.06);
        Assert.True(results[ZoneTexture.Uniform].Value > results[ZoneTexture.Uniform].Uncertainty);
    }

    // Dry spray beside sound film: grains on the second side alone, over the noise that both have.
    [Fact]
    public void Measure_grit_beside_smooth_film_is_stronger_and_grittier()
    {
        var random = new Random(8);
        var film = Smooth(4.0, 1.0, seed: 3);
        var results = Measure(Pattern.Draw(200, 120, (x, y) =>
            film[x, y] + (0.05 * Pattern.Normal(random)) + (x < 100 ? 0.0 : 2.0 * Pattern.Normal(random))));

        Assert.True(results[ZoneTexture.Contrast].Value - 1.0 > results[ZoneTexture.Contrast].Uncertainty);
        Assert.True(-results[ZoneTexture.Correlation].Value > results[ZoneTexture.Correlation].Uncertainty);
        Assert.True(-results[ZoneTexture.Uniform].Value > results[ZoneTexture.Uniform].Uncertainty);
    }

    // Of 60 pairs with the same film each of the three must agree with "alike" in 95 %, less what chance takes from 60 (at least 53).
    [Fact]
    public void Measure_same_film_in_both_zones_is_alike()
    {
        var alike = new Dictionary<string, int>();
        for (var seed = 100; seed < 160; seed++)
        {
            var film = Smooth(1.5, 2.0, seed);
            var results = Measure(film);
            Add(ZoneTexture.Contrast, 1.0);
            Add(ZoneTexture.Correlation, 0.0);
            Add(ZoneTexture.Uniform, 0.0);

            void Add(string metric, double expected) => alike[metric] = alike.GetValueOrDefault(metric)
                + (Math.Abs(results[metric].Value!.Value - expected) <= results[metric].Uncertainty ? 1 : 0);
        }

        Assert.All(alike.Values, count => Assert.InRange(count, 53, 60));
    }

    [Fact]
    public void Measure_zone_too_small_or_without_texture_or_in_other_light_is_absent()
    {
        var flat = Pattern.Draw(200, 120, (_, _) => 0.0);
        var small = new ZonePair(new(0, 10, 20, 40, 40), new(0, 110, 20, 80, 80));

        Assert.Equal(ZoneTexture.TooSmall, Measure(Smooth(1.5, 2.0, 9), small)[ZoneTexture.Uniform].AbsentReason);
        Assert.Equal(ZoneTexture.NoTexture, Measure(flat)[ZoneTexture.Contrast].AbsentReason);
        Assert.Equal(
            ZoneLight.OnlyBrightness, Measure(Pattern.Draw(200, 120, (x, _) => x < 100 ? 0.0 : 30.0))[ZoneTexture.Contrast].AbsentReason);
    }

    private static void AssertWithin(double expected, Measurement actual, double slack = 0.0) =>
        Assert.InRange(actual.Value!.Value, expected - actual.Uncertainty!.Value - slack, expected + actual.Uncertainty.Value + slack);

    private static Plane Smooth(double sigmaPx, double deviation, int seed)
    {
        var random = new Random(seed);
        var plane = GaussianFilter.Apply(Pattern.Draw(200, 120, (_, _) => Pattern.Normal(random)), sigmaPx);
        var scale = deviation * 2.0 * Math.Sqrt(Math.PI) * sigmaPx;
        return Pattern.Draw(200, 120, (x, y) => scale * plane[x, y]);
    }

    private static Dictionary<string, Measurement> Measure(Plane texture, ZonePair? zones = null)
    {
        var luminance = Pattern.Draw(
            200, 120, (x, y) => CieLab.ToLinear(new(50.0 + texture[x, y], 0.0, 0.0)).Green);
        var panel = Pattern.Gray(luminance) with { Lightness = Pattern.Draw(200, 120, (x, y) => 50.0 + texture[x, y]) };
        return ZoneDifference.Measure(panel, zones ?? Sides, Exact).ToDictionary(one => one.Metric);
    }
}
