using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Lines;
using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Lines;

public sealed class LineMetricsTests
{
    // E-2 of the reference: lines of 3 px at 16, 48, 80, 112 both ways in 128 x 128. Thinning drops a pixel at the frame.
    [Fact]
    public void Measure_craze_grid_has_its_length_fraction_width_and_cells()
    {
        var tabled = ReferenceData.Read("components").GetProperty("craze_grid");
        var results = Measure(CrazeGrid(mmPerPx: 0.5));
        var length = 8 * 128 / (128.0 * 128.0);

        AssertNear(length, 0.06 * length, results["line_density"]);
        Assert.Equal(2.0 * results["line_density"].Value!.Value, results["line_density_per_mm"].Value!.Value, 1e-9);
        AssertNear(3.0, 0.5, results["line_width_px"]);
        AssertNear(1.5, 0.25, results["line_width_mm"]);
        AssertNear(tabled.GetProperty("line_fraction").GetDouble(), 0.02, results["line_area_fraction"]);
        Assert.Equal(tabled.GetProperty("cells_not_touching_border").GetInt32(), results["line_cell_count"].Value);
        var junctions = results["line_junction_density"].Value!.Value * results["line_density"].Value!.Value * 128 * 128;
        Assert.Equal(16.0, junctions, 0.5);
        AssertNear(1.0, 0.1, results["line_direction_spread"]);
    }

    [Fact]
    public void Measure_mirrored_panel_is_the_same()
    {
        var panel = CellCracks();
        var direct = Measure(panel);
        var mirrored = Measure(Pattern.MirrorX(panel));

        Assert.Equal(direct["line_density"].Value!.Value, mirrored["line_density"].Value!.Value, 0.002);
        Assert.Equal(direct["line_direction_spread"].Value!.Value, mirrored["line_direction_spread"].Value!.Value, 0.05);
        Assert.Equal(direct["line_cell_count"].Value!.Value, mirrored["line_cell_count"].Value!.Value, 4.0);
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
        Assert.Equal(0.0, results["line_area_fraction"].Value);
        Assert.Equal(0.0, results["line_cell_count"].Value);
        Assert.All(
            results.Values.Where(one => one.Value is null),
            one => Assert.Equal(LineMetrics.NoLines, one.AbsentReason));
        Assert.Equal(13, results.Values.Count(one => one.AbsentReason == LineMetrics.NoLines));
    }

    [Fact]
    public void Measure_lone_line_has_no_neighbors() =>
        Assert.Equal(LineMetrics.NoNeighbors, Measure(Lines(1))["line_local_direction_spread"].AbsentReason);

    // A line 5 px from the frame has no surroundings on one side.
    [Fact]
    public void Measure_line_at_the_frame_has_no_width()
    {
        var results = Measure(Pattern.Gray(Pattern.Draw(200, 100, (x, y) => x > 20 && x < 180 && y is 4 or 5 ? 0.05 : 0.3)));

        Assert.NotNull(results["line_density"].Value);
        Assert.Equal(LineMetrics.NoProfile, results["line_width_px"].AbsentReason);
        Assert.Equal(LineMetrics.NoProfile, results["line_width_mm"].AbsentReason);
        Assert.Equal(LineMetrics.NoProfile, results["line_contrast"].AbsentReason);
        Assert.Equal(LineMetrics.NoProfile, results["line_area_fraction"].AbsentReason);
    }

    [Fact]
    public void Measure_states_an_uncertainty_with_every_value() =>
        Assert.All(
            Measure(CrazeGrid(0.5)).Values.Where(one => one.Value is not null),
            one => Assert.True(one.Uncertainty > 0.0, one.Metric));

    [Fact]
    public void Measure_without_scale_has_no_millimeters()
    {
        var results = Measure(CrazeGrid(null));
        Assert.Equal(AbsentReasons.NoScale, results["line_density_per_mm"].AbsentReason);
        Assert.Equal(AbsentReasons.NoScale, results["line_width_mm"].AbsentReason);
        Assert.Equal(AbsentReasons.NoScale, results["line_curvature_per_mm"].AbsentReason);
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

    private static void AssertNear(double expected, double tolerance, Measurement actual) =>
        Assert.Equal(expected, actual.Value!.Value, tolerance);

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel, SharpnessReading? sharpness = null)
    {
        var measurements = new List<Measurement>();
        LineMetrics.Measure(panel, sharpness, measurements);
        return measurements.ToDictionary(measurement => measurement.Metric);
    }
}
