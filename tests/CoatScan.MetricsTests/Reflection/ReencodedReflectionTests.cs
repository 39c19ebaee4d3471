using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Filters;

namespace CoatScan.MetricsTests.Reflection;

/// <summary>E-8 of the reference on reflections: what coding, turning and resizing do stays within the stated
/// uncertainty.</summary>
public sealed class ReencodedReflectionTests
{
    private static readonly MirrorScene Scene = new()
    {
        SidePx = 800,
        AmplitudeUm = 0.15,
        WavelengthMm = 3.0,
        AcrossDegrees = 20.0,
        BlurPx = 1.4,
        BrightRadiance = 1.5,
        Noise = 0.01,
    };

    [Theory]
    [InlineData(95)]
    [InlineData(80)]
    [InlineData(60)]
    public void Measure_coded_photo_stays_within_its_uncertainty(int quality) =>
        AssertWithin(Pattern.Gray(JpegLikeCoder.Code(Scene.LinearLight(), quality), Scene.MmPerPx));

    [Fact]
    public void Measure_turned_photo_stays_within_its_uncertainty()
    {
        var light = Scene.LinearLight();
        AssertWithin(Pattern.Gray(
            Pattern.Draw(Scene.SidePx, Scene.SidePx, (x, y) => light[y, Scene.SidePx - 1 - x]), Scene.MmPerPx));
    }

    [Theory]
    [InlineData(400)]
    [InlineData(600)]
    public void Measure_smaller_photo_stays_within_its_uncertainty(int sidePx) => AssertWithin(Pattern.Gray(
        AreaReduction.Apply(Scene.LinearLight(), sidePx, sidePx), Scene.MmPerPx * Scene.SidePx / sidePx));

    [Fact]
    public void Measure_larger_photo_stays_within_its_uncertainty()
    {
        var light = Scene.LinearLight();
        AssertWithin(Pattern.Gray(
            Pattern.Draw(2 * Scene.SidePx, 2 * Scene.SidePx, (x, y) => light[x / 2, y / 2]), 0.5 * Scene.MmPerPx));
    }

    // 95 % of the values: of the scene's ten or so one may lie outside.
    private static void AssertWithin(PanelPlanes changed)
    {
        var before = Reflections(Scene.Panel());
        var after = Reflections(changed);
        var outside = new List<string>();
        var compared = 0;
        foreach (var (metric, value) in before)
        {
            if (value.Value is { } was && after[metric] is { Value: { } now, Uncertainty: { } uncertainty })
            {
                compared++;
                if (Math.Abs(now - was) > uncertainty)
                {
                    outside.Add($"{metric} {now} +- {uncertainty}, was {was}");
                }
            }
        }

        Assert.True(compared >= 7, $"{compared} compared");
        Assert.True(outside.Count <= 1, string.Join("; ", outside));
    }

    // What is given in pixels changes with the size of the photo, as it must.
    private static Dictionary<string, Measurement> Reflections(PanelPlanes panel) =>
        PanelMetrics.Measure(panel, CancellationToken.None).Measurements
            .Where(measurement => measurement.Metric.StartsWith("waviness_", StringComparison.Ordinal)
                || measurement.Metric.StartsWith("gloss_", StringComparison.Ordinal))
            .Where(measurement => !measurement.Metric.EndsWith("_px", StringComparison.Ordinal))
            .ToDictionary(measurement => measurement.Metric);
}
