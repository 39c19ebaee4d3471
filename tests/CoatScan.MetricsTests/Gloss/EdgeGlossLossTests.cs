using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Gloss;
using CoatScan.Metrics.Quality;
using CoatScan.MetricsTests.Reflection;

namespace CoatScan.MetricsTests.Gloss;

public sealed class EdgeGlossLossTests
{
    private static readonly SharpnessReading Sharp = new(1.0, 500);

    // 1 - s reference / s of Gaussian edges: closed form.
    [Theory]
    [InlineData(1.0)]
    [InlineData(1.5)]
    [InlineData(2.0)]
    [InlineData(3.0)]
    public void Measure_blurred_reflection_matches_the_closed_form(double blurPx)
    {
        var result = Measure(new MirrorScene { BlurPx = blurPx, Noise = 0.01, AmplitudeUm = 0.05 }.Panel())[EdgeGlossLoss.Metric];

        Assert.InRange(result.Uncertainty!.Value, 0.02, 0.25);
        Assert.Equal(1.0 - (1.0 / blurPx), result.Value!.Value, 0.06);
    }

    [Fact]
    public void Measure_softer_reflection_never_reads_lower()
    {
        var last = -1.0;
        for (var blur = 1.0; blur <= 4.0; blur += 0.5)
        {
            var value = Measure(new MirrorScene { BlurPx = blur }.Panel())[EdgeGlossLoss.Metric].Value!.Value;
            Assert.True(value > last, $"{value} at {blur} px after {last}");
            last = value;
        }
    }

    // One panel, a sound and a dulled part: the mirror image of the same lamp is three times wider on one.
    [Fact]
    public void Measure_dulled_zone_is_told_from_the_sound_one()
    {
        var panel = Pattern.Gray(Pattern.Draw(640, 640, (x, y) => 0.03 + (0.05 * MirrorScene.NormalShare(
            (x - 150.0 - (0.05 * y)) / 1.0)) + (0.08 * MirrorScene.NormalShare((x - 450.0 + (0.1 * y)) / 3.0))));

        var result = Measure(panel)[EdgeGlossLoss.ZonesMetric];

        Assert.Equal(1.0 - (1.0 / 3.0), result.Value!.Value, 0.06);
    }

    [Fact]
    public void Against_reference_spread_carries_both_uncertainties()
    {
        var same = EdgeGlossLoss.Against("loss", new(2.0, 0.1), new(2.0, 0.2));
        var sharper = EdgeGlossLoss.Against("loss", new(0.8, 0.0), new(1.6, 0.0));

        Assert.Equal(0.0, same.Value);
        Assert.Equal(Math.Sqrt((0.05 * 0.05) + (0.1 * 0.1)), same.Uncertainty!.Value, 1e-9);
        Assert.Equal(0.0, sharper.Value);
    }

    [Fact]
    public void Measure_without_edge_focus_or_second_zone_is_absent()
    {
        var uniform = Pattern.Gray(Pattern.Draw(300, 300, (_, _) => 0.05));
        var scene = new MirrorScene().Panel();

        Assert.Equal(EdgeGlossLoss.NoEdge, Measure(uniform)[EdgeGlossLoss.Metric].AbsentReason);
        Assert.Equal(EdgeGlossLoss.NoEdge, Measure(uniform)[EdgeGlossLoss.ZonesMetric].AbsentReason);
        Assert.Equal(EdgeGlossLoss.OneEdge, Measure(scene)[EdgeGlossLoss.ZonesMetric].AbsentReason);
        Assert.Equal(GlossLoss.FocusUnknown, Measure(scene, null)[EdgeGlossLoss.Metric].AbsentReason);
        Assert.Equal(AbsentReasons.Blurred, Measure(scene, new SharpnessReading(2.0, 500))[EdgeGlossLoss.Metric].AbsentReason);
    }

    [Fact]
    public void Measure_clipped_edge_tells_no_spread()
    {
        var edge = Assert.Single(ReflectedEdgeTests.Find(new MirrorScene().Panel())) with { IsClipped = true };
        var results = new List<Measurement>();

        EdgeGlossLoss.Measure([edge], Sharp, results);

        Assert.All(results, result => Assert.Equal(EdgeGlossLoss.NoEdge, result.AbsentReason));
    }

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel) => Measure(panel, Sharp);

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel, SharpnessReading? sharpness)
    {
        var results = new List<Measurement>();
        EdgeGlossLoss.Measure(ReflectedEdgeTests.Find(panel), sharpness, results);
        return results.ToDictionary(result => result.Metric);
    }
}
