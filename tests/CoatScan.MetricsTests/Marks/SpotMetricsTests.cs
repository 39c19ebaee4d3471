using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Marks;
using CsCheck;

namespace CoatScan.MetricsTests.Marks;

public sealed class SpotMetricsTests
{
    // E-1 of the reference: 4 x 4 disks of radius 4 (49 px each) in 160 x 160: 16 spots, 3.0625 % of the area.
    [Fact]
    public void Measure_grid_of_sixteen_disks_counts_and_covers_exactly()
    {
        var tabled = ReferenceData.Read("blobs").GetProperty("grid16_r4");
        var results = Measure(Grid(0.02, 0.2, mmPerPx: 0.25));

        Assert.Equal(tabled.GetProperty("count").GetInt32(), results["spot_count"].Value);
        Assert.Equal(784.0 / 25600.0, results["spot_area_fraction"].Value!.Value, 1e-9);
        Assert.Equal(1.0, results["spot_dark_share"].Value);
        Assert.Equal(Math.Sqrt(4.0 * 49.0 / Math.PI), results["spot_diameter_px"].Value!.Value, 1e-9);
        Assert.Equal(0.25 * Math.Sqrt(4.0 * 49.0 / Math.PI), results["spot_diameter_mm"].Value!.Value, 1e-9);
        Assert.Equal(16.0, results["spot_count_4_8_px"].Value);
        Assert.Equal(0.0, results["spot_count_8_16_px"].Value);
        Assert.Equal(16.0, results["spot_count_1_to_5_mm"].Value);

        // 160 px at 0.25 mm are 40 mm: 0.16 square decimeters.
        Assert.Equal(100.0, results["spot_density_per_dm2"].Value!.Value, 1e-9);
        Assert.Equal(16.0 / 0.0256, results["spot_density_per_mpx"].Value!.Value, 1e-6);
        Assert.Equal(1.96 * 4.0, results["spot_count"].Uncertainty!.Value, 1e-3);
        Assert.Equal(0.0, results["spot_ring_share"].Value);

        // A square lattice of 40 px; the frame's correction takes a little off the 2 of an endless one.
        Assert.InRange(results["spot_nearest_ratio"].Value!.Value, 1.6, 2.0);
    }

    [Fact]
    public void Measure_bright_disks_are_not_dark() =>
        Assert.Equal(0.0, Measure(Grid(0.6, 0.2))["spot_dark_share"].Value);

    // The area of a blurred disk is counted at half of its contrast; in L* the half lies a little off that in light.
    [Fact]
    public void Measure_disks_on_a_gradient_with_noise_are_still_sixteen()
    {
        var random = new Random(3);
        var panel = Pattern.Gray(Pattern.Draw(
            160, 160, (x, y) => (InDisk(x, y) ? 0.05 : 0.1 + (0.001 * x)) + (0.002 * Pattern.Normal(random))));

        var results = Measure(panel);

        Assert.Equal(16.0, results["spot_count"].Value);
        Assert.Equal(784.0 / 25600.0, results["spot_area_fraction"].Value!.Value, 0.002);
    }

    [Fact]
    public void Measure_noise_alone_has_no_spots() =>
        Gen.Int[0, 1000].Sample(
            seed =>
            {
                var noise = Pattern.Noise(160, 120, seed);
                var panel = Pattern.Gray(Pattern.Draw(160, 120, (x, y) => 0.2 + (0.01 * noise[x, y])));
                return Measure(panel)["spot_count"].Value == 0.0;
            },
            iter: 20);

    // Disks of radius 3, one in each square of 14 px, somewhere in it: their number is known by construction, and they stand in no rows.
    [Theory]
    [InlineData(96, 9216.0)]
    [InlineData(104, null)]
    public void Measure_more_marks_than_can_be_spots_are_none(int aSide, double? count)
    {
        var random = new Random(8);
        var shifts = Enumerable.Range(0, aSide * aSide).Select(_ => (X: random.Next(5, 9), Y: random.Next(5, 9))).ToArray();
        var panel = Pattern.Gray(Pattern.Draw(14 * aSide, 14 * aSide, (x, y) =>
        {
            var (shiftX, shiftY) = shifts[((int)y / 14 * aSide) + ((int)x / 14)];
            var (dx, dy) = ((x % 14) - shiftX, (y % 14) - shiftY);
            return (dx * dx) + (dy * dy) <= 9 ? 0.05 : 0.2;
        }));

        var results = Measure(panel);

        Assert.Equal(count, results["spot_count"].Value);
        if (count is null)
        {
            Assert.All(results.Values.Where(one => one.Metric.StartsWith("spot_", StringComparison.Ordinal)), one =>
            {
                Assert.Null(one.Value);
                Assert.NotEqual("", one.AbsentReason);
            });
            Assert.Equal(SpotMetrics.TooManySpots, results["spot_count"].AbsentReason);
            Assert.Equal(SpotMetrics.TooManySpots, results["spot_area_fraction"].AbsentReason);
        }
    }

    [Fact]
    public void Measure_mirrored_panel_finds_the_same_spots()
    {
        var panel = Grid(0.05, 0.2);
        Assert.Equal(Amounts(Measure(panel)), Amounts(Measure(Pattern.MirrorX(panel))));
    }

    [Theory]
    [InlineData(40, 3)] // A bar is no spot.
    [InlineData(60, 60)] // A patch larger than the local background is an area, not a spot.
    public void Measure_mark_that_is_no_spot_is_left_out(int width, int height)
    {
        var panel = Pattern.Gray(Pattern.Draw(
            160, 160, (x, y) => x >= 50 && x < 50 + width && y >= 50 && y < 50 + height ? 0.02 : 0.2));

        Assert.Equal(0.0, Measure(panel)["spot_count"].Value);
    }

    [Fact]
    public void Measure_clipped_glints_are_no_spots() =>
        Assert.Equal(0.0, Measure(Grid(1.0, 0.2))["spot_count"].Value);

    [Fact]
    public void Measure_without_spots_has_no_share_and_no_size()
    {
        var results = Measure(Pattern.Gray(Pattern.Draw(100, 100, (_, _) => 0.2)));

        Assert.Equal(0.0, results["spot_count"].Value);
        Assert.Equal(SpotMetrics.NoSpots, results["spot_dark_share"].AbsentReason);
        Assert.Equal(SpotMetrics.NoSpots, results["spot_diameter_px"].AbsentReason);
        Assert.Equal(SpotMetrics.NoSpots, results["spot_diameter_mm"].AbsentReason);
    }

    [Fact]
    public void Measure_without_scale_has_no_millimeters()
    {
        var results = Measure(Grid(0.02, 0.2));

        Assert.Equal(AbsentReasons.NoScale, results["spot_density_per_dm2"].AbsentReason);
        Assert.Equal(AbsentReasons.NoScale, results["spot_diameter_mm"].AbsentReason);
        Assert.Equal(AbsentReasons.NoScale, results["spot_count_under_0_3_mm"].AbsentReason);
        Assert.NotNull(results["spot_density_per_mpx"].Value);
    }

    [Fact]
    public void Measure_class_that_the_photo_does_not_resolve_is_absent()
    {
        var results = Measure(Grid(0.02, 0.2, mmPerPx: 0.25));

        Assert.Contains("does not resolve", results["spot_count_under_0_3_mm"].AbsentReason, StringComparison.Ordinal);
        Assert.NotNull(results["spot_count_0_3_to_1_mm"].Value);
    }

    [Theory]
    [InlineData(63, 0.2, SpotMetrics.TooSmall)]
    [InlineData(100, 1.0, SpotMetrics.MostlyClipped)]
    [InlineData(100, 0.001, SpotMetrics.TooDark)]
    public void Measure_unsuitable_panel_is_absent(int side, double level, string reason)
    {
        var results = Measure(Pattern.Gray(Pattern.Draw(side, side, (_, _) => level), 0.25));

        Assert.All(results.Values, measurement => Assert.Equal(reason, measurement.AbsentReason));
    }

    // What is doubtful about the number is more than the number: no number. From 4 on, since chance alone makes 3 of 3 doubtful.
    [Theory]
    [InlineData(30.0, 31.0, true)]
    [InlineData(30.0, 29.0, false)]
    [InlineData(3.0, 5.0, false)]
    [InlineData(0.0, 3.0, false)]
    public void Withhold_takes_back_a_number_that_is_less_than_its_half_width(double count, double half, bool isTakenBack)
    {
        var measurements = new List<Measurement>
        {
            Measurement.Of("spot_count", count, "1", half),
            Measurement.Of("spot_density_per_dm2", count / 4.0, "/dm2", half / 4.0),
            Measurement.Of("spot_area_fraction", 0.01, "1", 0.002),
            Measurement.Absent("spot_diameter_mm", "mm", "no scale"),
        };
        List<Measurement> before = [.. measurements];

        SpotMetrics.Withhold(measurements);

        Assert.Equal(isTakenBack, measurements[0].AbsentReason?.StartsWith("30 marks were found, ", StringComparison.Ordinal) ?? false);
        Assert.Equal(isTakenBack, measurements[1].Value is null);
        Assert.Equal(before[2..], measurements[2..]);
    }

    [Fact]
    public void Withhold_takes_back_an_area_that_is_less_than_its_half_width()
    {
        var measurements = new List<Measurement>
        {
            Measurement.Of("spot_count", 30.0, "1", 12.0), Measurement.Of("spot_area_fraction", 0.01, "1", 0.011),
        };

        SpotMetrics.Withhold(measurements);

        Assert.Equal(30.0, measurements[0].Value);
        Assert.Contains("their area is not known", measurements[1].AbsentReason, StringComparison.Ordinal);
    }

    private static PanelPlanes Grid(double spot, double paint, double? mmPerPx = null) =>
        Pattern.Gray(Pattern.Draw(160, 160, (x, y) => InDisk(x, y) ? spot : paint), mmPerPx);

    private static bool InDisk(int x, int y)
    {
        var (dx, dy) = ((x % 40) - 20, (y % 40) - 20);
        return (dx * dx) + (dy * dy) <= 16;
    }

    private static double?[] Amounts(Dictionary<string, Measurement> results) =>
        [results["spot_count"].Value, results["spot_area_fraction"].Value, results["spot_diameter_px"].Value];

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel)
    {
        var measurements = new List<Measurement>();
        var lightness = panel.Lightness.Values.Average();
        SpotMetrics.Measure(panel, lightness, measurements);
        return measurements.ToDictionary(measurement => measurement.Metric);
    }
}
