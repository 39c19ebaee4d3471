using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Zones;

namespace CoatScan.MetricsTests.Zones;

public sealed class RustMetricsTests
{
    // Invented colors: rust brown 120, 62, 30, mottled by a third; gray paint 150, 152, 155.
    [Fact]
    public void Measure_mottled_brown_patch_on_gray_is_its_area()
    {
        var results = Measure(Panel(0.2, (120, 62, 30), (150, 152, 155), mottle: 0.3));

        var share = results["rust_colored_fraction"];
        Assert.Equal(0.2, share.Value!.Value, 0.02);
        Assert.InRange(0.2, share.Value.Value - share.Uncertainty!.Value, share.Value.Value + share.Uncertainty.Value);
        Assert.Equal(0.0, results["even_red_brown_fraction"].Value!.Value, 0.005);
        Assert.Equal(0.0, results["stain_colored_fraction"].Value!.Value, 0.01);
        Assert.Equal(1.0, results["rust_patch_count"].Value);
    }

    // Red-brown primer has the color of rust; what it lacks is the mottle.
    [Fact]
    public void Measure_even_red_brown_is_kept_apart()
    {
        var results = Measure(Panel(0.2, (120, 62, 30), (150, 152, 155), mottle: 0.0));

        Assert.Equal(0.0, results["rust_colored_fraction"].Value);
        Assert.Equal(0.2, results["even_red_brown_fraction"].Value!.Value, 0.01);
        Assert.Equal(RustMetrics.NoRust, results["rust_patch_large_px"].AbsentReason);
    }

    // 16 x 16 px are 64 cells, under the 100 that are judged: such a patch counts as rust, and may be primer.
    [Fact]
    public void Measure_small_even_patch_may_be_even_red_brown()
    {
        var results = Measure(Draw(150, 120, (x, y) => x is >= 60 and < 76 && y is >= 50 and < 66 ? (120, 62, 30) : (150, 152, 155), 0.2));

        var even = results["even_red_brown_fraction"];
        Assert.Equal(0.0, even.Value);
        Assert.InRange(even.Uncertainty!.Value, 0.95 * 256 / 18_000, 1.1 * 256 / 18_000);
    }

    [Fact]
    public void Measure_yellow_brown_is_a_stain_not_rust()
    {
        var results = Measure(Panel(0.2, (150, 122, 66), (150, 152, 155), mottle: 0.1));

        Assert.Equal(0.0, results["rust_colored_fraction"].Value!.Value, 0.02);
        Assert.Equal(0.2, results["stain_colored_fraction"].Value!.Value, 0.03);
    }

    [Theory]
    [InlineData(230, 120, 20)] // A turn signal: too bright and too full.
    [InlineData(60, 70, 140)] // Blue paint.
    [InlineData(200, 190, 170)] // Beige.
    [InlineData(158, 152, 147)] // Gray with a warm cast.
    public void Measure_other_colors_are_not_rust(int red, int green, int blue) =>
        Assert.Equal(0.0, Measure(Panel(0.2, (red, green, blue), (150, 152, 155), 0.0))["rust_colored_fraction"].Value);

    [Fact]
    public void Measure_warm_scene_is_absent_not_rusty()
    {
        // Dusk: red up by 30 %, blue down by 40 %, on gray paint.
        var results = Measure(Panel(0.2, (120, 80, 50), (185, 150, 105), 0.0));

        Assert.All(Rust(results), result => Assert.Equal(RustMetrics.AllWarm, result.AbsentReason));
    }

    [Fact]
    public void Measure_more_rust_reads_more()
    {
        var last = -1.0;
        foreach (var share in new[] { 0.0, 0.05, 0.2, 0.5, 0.8 })
        {
            var value = Measure(Panel(share, (120, 62, 30), (40, 44, 60), 0.3))["rust_colored_fraction"].Value!.Value;
            Assert.True(value > last);
            last = value;
        }
    }

    [Fact]
    public void Measure_scattered_specks_have_count_size_and_pattern()
    {
        var panel = Draw(400, 300, (x, y) => Math.Pow((x % 50) - 25, 2) + Math.Pow((y % 50) - 25, 2) <= 64.0
            ? (120, 62, 30) : (150, 152, 155), mmPerPx: 0.1);

        var results = Measure(panel);

        Assert.Equal(48.0, results["rust_patch_count"].Value);
        Assert.Equal(16.0, results["rust_patch_large_px"].Value!.Value, 1.5);
        Assert.Equal(1.6, results["rust_patch_large_mm"].Value!.Value, 0.15);
        Assert.True(results["rust_nearest_ratio"].Value > 1.6);
    }

    // Of two patches the larger is the large one, and another photo may miss it.
    [Fact]
    public void Measure_two_patches_have_the_larger_as_large_and_doubt_it()
    {
        var large = Measure(Draw(400, 300, (x, y) => Math.Pow(x - 100, 2) + Math.Pow(y - 150, 2) <= 64.0 || Math.Pow(x - 300, 2) + Math.Pow(y - 150, 2) <= 16.0
            ? (120, 62, 30) : (150, 152, 155), mmPerPx: 0.1))["rust_patch_large_px"];

        Assert.Equal(16.0, large.Value!.Value, 1.5);
        Assert.InRange(large.Uncertainty!.Value, 7.0, 10.0);
    }

    [Fact]
    public void Measure_few_patches_have_no_pattern_and_no_millimeters_without_scale()
    {
        var results = Measure(Panel(0.2, (120, 62, 30), (150, 152, 155), 0.3));

        Assert.Equal(RustMetrics.TooFewPatches, results["rust_nearest_ratio"].AbsentReason);
        Assert.Equal(AbsentReasons.NoScale, results["rust_patch_large_mm"].AbsentReason);
    }

    [Fact]
    public void Measure_clipped_or_dark_panel_is_absent()
    {
        Assert.All(
            Rust(Measure(Panel(0.2, (120, 62, 30), (255, 255, 255), 0.0))),
            result => Assert.Equal(RustMetrics.MostlyClipped, result.AbsentReason));
        Assert.All(
            Rust(Measure(Panel(0.2, (8, 6, 5), (4, 4, 4), 0.0))),
            result => Assert.Equal(RustMetrics.TooDark, result.AbsentReason));
    }

    private static IEnumerable<Measurement> Rust(Dictionary<string, Measurement> results) =>
        results.Values.Where(result => !result.Metric.StartsWith("film_loss", StringComparison.Ordinal));

    private static PanelPlanes Panel(double share, (int R, int G, int B) patch, (int R, int G, int B) paint, double mottle)
    {
        var random = new Random(7);
        var shades = new double[150 * 120];
        for (var i = 0; i < shades.Length; i++)
        {
            // Mottle of 6 x 6 pixels, so that averages of cells keep it.
            shades[i] = i % 150 % 6 == 0 ? 1.0 + (mottle * ((2.0 * random.NextDouble()) - 1.0)) : shades[i - 1];
        }

        Plane Channel(int inside, int outside) => Pattern.Draw(150, 120, (x, y) => x < share * 150
            ? shades[(y / 6 * 6 * 150) + x] * SrgbTransfer.ByteToLinear[inside]
            : SrgbTransfer.ByteToLinear[outside]);
        return Pattern.Panel(Channel(patch.R, paint.R), Channel(patch.G, paint.G), Channel(patch.B, paint.B));
    }

    private static PanelPlanes Draw(int width, int height, Func<int, int, (int R, int G, int B)> color, double mmPerPx) =>
        Pattern.Panel(
            Pattern.Draw(width, height, (x, y) => SrgbTransfer.ByteToLinear[color(x, y).R]),
            Pattern.Draw(width, height, (x, y) => SrgbTransfer.ByteToLinear[color(x, y).G]),
            Pattern.Draw(width, height, (x, y) => SrgbTransfer.ByteToLinear[color(x, y).B]),
            mmPerPx);

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel)
    {
        using var scope = new PlaneScope();
        var measurements = new List<Measurement>();
        AreaMetrics.Measure(panel, panel.Lightness.Values.Average(), scope, measurements);
        return measurements.ToDictionary(measurement => measurement.Metric);
    }
}
