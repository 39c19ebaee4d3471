using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Lines;
using CoatScan.Metrics.Marks;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.MetricsTests;

public sealed class SizeDoubtTests
{
    private const int Side = 400;

    // Specks of 4 px, which half the size has 2 px wide and loses: that none of them may be there is stated.
    [Fact]
    public void Widen_specks_that_half_the_size_loses_are_doubted()
    {
        var (plain, widened) = Measure(Specks(radius: 2.0));

        Assert.Equal(plain["spot_count"].Value, widened["spot_count"].Value);
        Assert.InRange(plain["spot_count"].Value!.Value, 20.0, 30.0);
        Assert.True(widened["spot_count"].Uncertainty >= 0.9 * plain["spot_count"].Value);
    }

    // Disks of 24 px are the same at half the size: their number and area keep the half width that they had.
    [Fact]
    public void Widen_large_disks_are_not_doubted()
    {
        var (plain, widened) = Measure(Specks(radius: 12.0));

        Assert.Equal(25.0, plain["spot_count"].Value);
        Assert.Equal(plain["spot_count"].Uncertainty!.Value, widened["spot_count"].Uncertainty!.Value, 1e-9);
        Assert.Equal(
            plain["spot_area_fraction"].Uncertainty!.Value, widened["spot_area_fraction"].Uncertainty!.Value, 0.1 * plain["spot_area_fraction"].Uncertainty!.Value);
    }

    // A hairline of one pixel in faint contrast is gone at half the size; a bold one stays.
    [Theory]
    [InlineData(0.8, 5.0, true)]
    [InlineData(3.0, 20.0, false)]
    public void Widen_hairlines_are_doubted_and_bold_lines_are_not(double sigma, double contrast, bool isDoubted)
    {
        var panel = Pattern.Gray(Pattern.Draw(Side, Side, (_, _) => 0.2));
        var lightness = Pattern.Draw(Side, Side, (x, y) =>
            50.0 - (contrast * Math.Exp(-Math.Pow(x - 100.3 - (0.2 * y), 2) / (2.0 * sigma * sigma))));
        var (plain, widened) = Measure(panel with { Lightness = lightness, MmPerPx = 0.2 });

        var length = plain["line_density_per_mm"];
        Assert.True(length.Value > 0.0);
        Assert.Equal(isDoubted, widened["line_density_per_mm"].Uncertainty >= 0.9 * length.Value);
    }

    [Fact]
    public void Widen_leaves_values_in_pixels_and_other_metrics_as_they_are()
    {
        var (plain, widened) = Measure(Specks(radius: 2.0));

        Assert.Equal(plain["spot_diameter_px"], widened["spot_diameter_px"]);
        Assert.Equal(plain["spot_count_4_8_px"], widened["spot_count_4_8_px"]);
        Assert.Equal(plain["line_density"], widened["line_density"]);
        Assert.Equal(plain["other"], widened["other"]);
    }

    // Under 64 px nothing is sought, so that half of a panel of 100 px tells nothing, and nothing is added.
    [Fact]
    public void Widen_panel_too_small_at_half_size_adds_nothing()
    {
        var panel = Pattern.Gray(Pattern.Draw(100, 100, (x, y) => Math.Pow(x - 50, 2) + Math.Pow(y - 50, 2) <= 16 ? 0.05 : 0.2));

        var (plain, widened) = Measure(panel);

        Assert.Equal(plain["spot_count"], widened["spot_count"]);
    }

    private static PanelPlanes Specks(double radius) => Pattern.Gray(Pattern.Draw(Side, Side, (x, y) =>
    {
        var (dx, dy) = ((x % 80) - 40, (y % 80) - 40);
        return Math.Sqrt((dx * dx) + (dy * dy)) <= radius ? 0.05 : 0.2;
    }));

    private static (Dictionary<string, Measurement> Plain, Dictionary<string, Measurement> Widened) Measure(PanelPlanes panel)
    {
        var measurements = new List<Measurement> { Measurement.Of("other", 1.0, "1", 0.1) };
        SpotMetrics.Measure(panel, 50.0, measurements);
        LineMetrics.Measure(panel, null, measurements);
        var plain = measurements.ToDictionary(one => one.Metric);
        SizeDoubt.Widen(panel, 50.0, null, measurements);
        return (plain, measurements.ToDictionary(one => one.Metric));
    }
}
