using CoatScan.Findings;
using CoatScan.Metrics.Lines;

namespace CoatScan.MetricsTests.Lines;

public sealed class CrackLengthTests
{
    // Known geometry: see CrackScene. A part of the seeds that the figure in DEVELOPERS.md rests on.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(26)]
    [InlineData(37)]
    [InlineData(48)]
    [InlineData(49)]
    [InlineData(68)]
    [InlineData(101)]
    public void Measure_drawn_cracks_have_their_length_and_width(int seed)
    {
        var scene = CrackScene.Of(seed);
        var results = new List<Measurement>();

        LineMetrics.Measure(scene.Panel(), null, results);

        var density = results.Single(one => one.Metric == "line_density");
        Assert.Equal(scene.LengthPx, density.Value!.Value * 800 * 600, 0.06 * scene.LengthPx);

        // Under 2 px the blur of the edges widens a stroke: 1.5 px behind 0.6 px of blur is 2 px wide at half contrast.
        var width = results.Single(one => one.Metric == "line_width_px");
        Assert.Equal(Math.Max(scene.StrokePx, 2.0), width.Value!.Value, width.Uncertainty!.Value);
    }

    [Fact]
    public void Measure_bright_gap_between_two_dark_lines_is_no_line()
    {
        var plane = Pattern.Draw(200, 200, (x, y) => y is > 20 and < 180 && (Math.Abs(x - 94) <= 2 || Math.Abs(x - 106) <= 2) ? 20 : 60);
        using var scope = new CoatScan.Metrics.PlaneScope();

        var lines = LineReading.Of(LineFinder.Find(plane, scope));

        Assert.Equal(2, lines.Lines.Count);
        Assert.Equal(2 * 159.0, lines.LengthPx, 10.0);
    }
}
