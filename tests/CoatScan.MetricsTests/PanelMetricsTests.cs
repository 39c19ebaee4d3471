using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;

namespace CoatScan.MetricsTests;

public sealed class PanelMetricsTests
{
    [Fact]
    public void Measure_panel_gives_every_metric_once_in_a_fixed_order()
    {
        var flat = PanelMetrics.Measure(Flat(64, 0.2), CancellationToken.None);
        var marked = PanelMetrics.Measure(Marked(0.25), CancellationToken.None);

        Assert.Equal(
            flat.Measurements.Select(measurement => measurement.Metric),
            marked.Measurements.Select(measurement => measurement.Metric));
        Assert.Equal(
            marked.Measurements.Count, marked.Measurements.Select(measurement => measurement.Metric).Distinct().Count());
        Assert.Equal(16, marked.Spots.Count);
        Assert.All(marked.Measurements, measurement => Assert.True(measurement.Value is null ^ measurement.AbsentReason is null));
        Assert.All(marked.Measurements, measurement => Assert.Equal(measurement.Value is null, measurement.Uncertainty is null));
        Assert.All(marked.Measurements, measurement => Assert.Matches("^[a-z][a-z0-9_]*$", measurement.Metric));
    }

    [Fact]
    public void Measure_same_panel_twice_is_equal_bit_for_bit()
    {
        var first = PanelMetrics.Measure(Marked(0.25), CancellationToken.None);
        var second = PanelMetrics.Measure(Marked(0.25), CancellationToken.None);

        Assert.Equal(first.Measurements, second.Measurements);
        Assert.Equal(first.Spots, second.Spots);
    }

    [Fact]
    public void Measure_many_panels_at_once_agrees_with_one_at_a_time()
    {
        // Scratch planes are shared between threads: none may leak into another panel.
        var expected = PanelMetrics.Measure(Marked(0.25), CancellationToken.None);
        var results = new PanelMeasurements[4];

        Parallel.For(0, results.Length, i => results[i] = PanelMetrics.Measure(Marked(0.25), CancellationToken.None));

        Assert.All(results, result => Assert.Equal(expected.Measurements, result.Measurements));
    }

    [Theory]
    [InlineData(1, 0.0)]
    [InlineData(3, 0.5)]
    [InlineData(17, 1.0)]
    [InlineData(64, 0.0)]
    public void Measure_degenerate_panel_has_values_or_reasons(int side, double level)
    {
        var result = PanelMetrics.Measure(Flat(side, level), CancellationToken.None);

        Assert.Contains(result.Measurements, measurement => measurement.AbsentReason is not null);
    }

    [Fact]
    public void Measure_all_clipped_panel_has_no_color()
    {
        var result = PanelMetrics.Measure(Flat(80, 1.0), CancellationToken.None);

        Assert.Equal(1.0, Find(result, "clipped_fraction").Value);
        Assert.Equal("every pixel is clipped to white", Find(result, "panel_l").AbsentReason);
    }

    [Fact]
    public void Measure_flat_panel_has_its_color_and_no_sharpness()
    {
        var result = PanelMetrics.Measure(Flat(80, 0.2), CancellationToken.None);

        Assert.Equal(51.837, Find(result, "panel_l").Value!.Value, 0.1);
        Assert.Equal(0.0, Find(result, "panel_a").Value!.Value, 0.1);
        Assert.Equal("the photo shows no edges that could tell its focus", Find(result, "sharpness").AbsentReason);
    }

    // Half a code of Cb is 0.886 codes of blue and -0.172 of green (ITU-T T.871); the color's half width is at least what that does.
    [Theory]
    [InlineData(0.02)]
    [InlineData(0.2)]
    [InlineData(0.6)]
    public void Measure_color_of_flat_panel_is_doubted_by_what_a_decoder_rounds(double level)
    {
        var code = SrgbTransfer.FromLinear(level);
        var moved = CieLab.FromLinear(
            level, SrgbTransfer.ToLinear(code - (0.172 / 255.0)), SrgbTransfer.ToLinear(code + (0.886 / 255.0)));

        var result = PanelMetrics.Measure(Flat(80, level), CancellationToken.None);

        Assert.InRange(Find(result, "panel_b").Uncertainty!.Value, Math.Abs(moved.B), 4.0 * Math.Abs(moved.B));
    }

    // E-9 of the reference: without a scale nothing is stated in millimeters, and with or without one nothing in gloss units or micrometers.
    [Theory]
    [InlineData(null)]
    [InlineData(0.25)]
    public void Measure_states_no_millimeters_without_a_scale_and_never_gloss_units_or_micrometers(double? mmPerPx)
    {
        var measurements = PanelMetrics.Measure(Marked(mmPerPx), CancellationToken.None).Measurements;

        var inMm = measurements.Where(one =>
            one.Unit.Contains("mm", StringComparison.Ordinal) || one.Unit.Contains("dm", StringComparison.Ordinal)
            || one.Metric.Contains("_mm", StringComparison.Ordinal)).ToList();
        Assert.True(inMm.Count > 10);
        Assert.Equal(mmPerPx is not null, inMm.Exists(one => one.Value is not null));
        Assert.DoesNotContain(measurements, one => one.Unit.Contains("um", StringComparison.Ordinal) || one.Unit.Contains("GU", StringComparison.OrdinalIgnoreCase)
            || one.Metric.Contains("gloss_unit", StringComparison.Ordinal) || one.Metric.Contains("thickness", StringComparison.Ordinal));
    }

    [Fact]
    public void Measure_canceled_token_stops() => Assert.Throws<OperationCanceledException>(
        () => PanelMetrics.Measure(Flat(80, 0.2), new CancellationToken(canceled: true)));

    [Fact]
    public void Measure_inconsistent_panel_is_refused()
    {
        var panel = Flat(80, 0.2);
        Assert.Throws<ArgumentException>(
            () => PanelMetrics.Measure(panel with { Red = new(79, 80) }, CancellationToken.None));
        Assert.Throws<ArgumentException>(
            () => PanelMetrics.Measure(panel with { Clipped = new bool[3] }, CancellationToken.None));
        Assert.Throws<ArgumentException>(
            () => PanelMetrics.Measure(panel with { MmPerPx = 0.0 }, CancellationToken.None));
        Assert.Throws<ArgumentException>(
            () => PanelMetrics.Measure(panel with { OriginalPxPerPx = 0.5 }, CancellationToken.None));
    }

    private static Measurement Find(PanelMeasurements result, string metric) =>
        Assert.Single(result.Measurements, measurement => measurement.Metric == metric);

    private static PanelPlanes Flat(int side, double level) => Pattern.Gray(Pattern.Draw(side, side, (_, _) => level));

    private static PanelPlanes Marked(double? mmPerPx) => Pattern.Gray(
        Pattern.Draw(160, 160, (x, y) =>
            Math.Pow((x % 40) - 20, 2) + Math.Pow((y % 40) - 20, 2) <= 16 ? 0.02 : 0.2 + (0.0002 * y)),
        mmPerPx);
}
