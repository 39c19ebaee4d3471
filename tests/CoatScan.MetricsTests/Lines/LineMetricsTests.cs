using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Lines;
using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Lines;

public sealed class LineMetricsTests
{
    // E-2 of the reference: lines of 3 px at 16, 48, 80, 112 both ways in 128 x 128: 8 x 128 px of line, 16 crossings.
    [Fact]
    public void Measure_craze_grid_has_its_length_and_crossings()
    {
        var results = Measure(CrazeGrid(mmPerPx: 0.5));
        var length = ((8 * 128) - 16) / (128.0 * 128.0);

        Assert.Equal(length, results["line_density"].Value!.Value, 0.08 * length);
        Assert.Equal(2.0 * results["line_density"].Value!.Value, results["line_density_per_mm"].Value!.Value, 1e-9);
        var junctions = results["line_junction_density"].Value!.Value * results["line_density"].Value!.Value * 128 * 128;
        Assert.Equal(16.0, junctions, 0.5);
        Assert.InRange(results["line_regularity"].Value!.Value, 0.0, 0.2);
    }

    [Fact]
    public void Measure_parallel_scratches_are_regular_without_junctions()
    {
        var results = Measure(Scratches());

        Assert.InRange(results["line_regularity"].Value!.Value, 0.9, 1.0);
        Assert.Equal(0.0, results["line_junction_density"].Value);
        Assert.True(results["line_density"].Value > 0.01);
    }

    [Fact]
    public void Measure_cell_cracks_are_less_regular_than_scratches()
    {
        var cells = Measure(CellCracks());

        Assert.InRange(cells["line_regularity"].Value!.Value, 0.0, 0.45);
        Assert.True(cells["line_junction_density"].Value > 0.005);
    }

    [Fact]
    public void Measure_mirrored_panel_is_the_same()
    {
        var panel = CellCracks();
        var direct = Measure(panel);
        var mirrored = Measure(Pattern.MirrorX(panel));

        Assert.Equal(direct["line_density"].Value!.Value, mirrored["line_density"].Value!.Value, 0.002);
        Assert.Equal(direct["line_regularity"].Value!.Value, mirrored["line_regularity"].Value!.Value, 0.1);
    }

    [Fact]
    public void Measure_more_lines_are_denser()
    {
        var few = Measure(Lines(4))["line_density"].Value!.Value;
        var more = Measure(Lines(8))["line_density"].Value!.Value;

        Assert.Equal(2.0, more / few, 0.1);
    }

    [Fact]
    public void Measure_spots_are_no_lines()
    {
        var panel = Pattern.Gray(Pattern.Draw(160, 160, (x, y) =>
            Math.Pow((x % 40) - 20, 2) + Math.Pow((y % 40) - 20, 2) <= 16 ? 0.02 : 0.2));

        Assert.Equal(0.0, Measure(panel)["line_density"].Value);
    }

    [Fact]
    public void Measure_without_lines_has_no_pattern()
    {
        var results = Measure(Pattern.Gray(Pattern.Draw(100, 100, (_, _) => 0.2), 0.5));

        Assert.Equal(0.0, results["line_density"].Value);
        Assert.Equal(LineMetrics.NoLines, results["line_junction_density"].AbsentReason);
        Assert.Equal(LineMetrics.NoLines, results["line_regularity"].AbsentReason);
    }

    [Fact]
    public void Measure_lone_line_has_no_pattern() =>
        Assert.Equal(LineMetrics.TooFewLines, Measure(Lines(1))["line_regularity"].AbsentReason);

    [Fact]
    public void Measure_without_scale_has_no_millimeters()
    {
        var results = Measure(CrazeGrid(null));
        Assert.Equal(AbsentReasons.NoScale, results["line_density_per_mm"].AbsentReason);
        Assert.Equal(AbsentReasons.NoScale, results["line_junction_density_per_mm"].AbsentReason);
    }

    [Fact]
    public void Measure_blurred_or_small_panel_is_absent()
    {
        var blurred = Measure(CrazeGrid(null), new SharpnessReading(3.5, 500));
        var small = Measure(Pattern.Gray(Pattern.Draw(63, 200, (_, _) => 0.2)));

        Assert.All(blurred.Values, measurement => Assert.Equal(AbsentReasons.Blurred, measurement.AbsentReason));
        Assert.All(small.Values, measurement => Assert.Equal(LineMetrics.TooSmall, measurement.AbsentReason));
    }

    private static PanelPlanes CrazeGrid(double? mmPerPx) => Pattern.Gray(
        Pattern.Draw(128, 128, (x, y) => OnLine(x) || OnLine(y) ? 0.05 : 0.3), mmPerPx);

    private static bool OnLine(int position) => Math.Abs((position % 32) - 16) <= 1;

    private static PanelPlanes Lines(int count) => Pattern.Gray(Pattern.Draw(
        200, 200, (x, y) => y % 22 == 15 && y / 22 < count && x > 20 && x < (count < 2 ? 60 : 180) ? 0.05 : 0.3));

    // Bright scratches at about 20 degrees.
    private static PanelPlanes Scratches() => Pattern.Gray(Pattern.Draw(
        240, 240, (x, y) => 0.1 + (0.2 * Math.Exp(-0.5 * Math.Pow(Wrap((0.94 * y) - (0.342 * x), 24.0), 2.0)))));

    private static double Wrap(double value, double period) => value - (period * Math.Round(value / period));

    // Borders of the cells of scattered points.
    private static PanelPlanes CellCracks()
    {
        var random = new Random(11);
        var points = new (double X, double Y)[60];
        for (var i = 0; i < points.Length; i++)
        {
            points[i] = (random.NextDouble() * 240, random.NextDouble() * 240);
        }

        return Pattern.Gray(Pattern.Draw(240, 240, (x, y) =>
        {
            var (first, second) = (double.MaxValue, double.MaxValue);
            foreach (var point in points)
            {
                var distance = Math.Sqrt(Math.Pow(point.X - x, 2.0) + Math.Pow(point.Y - y, 2.0));
                (first, second) = distance < first ? (distance, first) : (first, Math.Min(second, distance));
            }

            return 0.3 - (0.25 * Math.Exp(-0.5 * Math.Pow((second - first) / 1.6, 2.0)));
        }));
    }

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel, SharpnessReading? sharpness = null)
    {
        var measurements = new List<Measurement>();
        LineMetrics.Measure(panel, sharpness, measurements);
        return measurements.ToDictionary(measurement => measurement.Metric);
    }
}
