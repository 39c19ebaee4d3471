using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Zones;

namespace CoatScan.MetricsTests.Zones;

public sealed class FilmLossTests
{
    private static readonly (int R, int G, int B) Blue = (30, 70, 150);
    private static readonly (int R, int G, int B) Gray = (150, 152, 155);
    private static readonly (int R, int G, int B) Primer = (140, 140, 138);
    private static readonly (int R, int G, int B) Cream = (205, 190, 150);

    [Theory]
    [InlineData(true, true)] // Gray primer under blue paint.
    [InlineData(false, true)] // Cream undercoat under blue paint.
    [InlineData(false, false)] // Cream undercoat under gray paint.
    public void Measure_flake_with_a_step_is_its_area(bool isPrimer, bool isBlue)
    {
        var results = Measure(Panel(isBlue ? Blue : Gray, isPrimer ? Primer : Cream, Disk, mmPerPx: 0.5));

        var share = results["film_loss_fraction"];
        var truth = Math.PI * 40.0 * 40.0 / (400.0 * 300.0);
        Assert.Equal(truth, share.Value!.Value, 0.1 * truth);
        Assert.InRange(truth, share.Value.Value - share.Uncertainty!.Value, share.Value.Value + share.Uncertainty.Value);
        Assert.Equal(1.0, results["film_loss_count"].Value);
        Assert.Equal(80.0, results["film_loss_large_px"].Value!.Value, 4.0);
        Assert.Equal(40.0, results["film_loss_large_mm"].Value!.Value, 2.0);
    }

    // Of 4.5 px radius, 16 cells: so near the least size of 12 that another photo may not count it. Both numbers say so.
    [Fact]
    public void Measure_flake_near_the_least_size_is_doubted_whole()
    {
        var results = Measure(Panel(Blue, Cream, (x, y) => Math.Pow(x - 200.5, 2) + Math.Pow(y - 150.5, 2) <= 20.25));

        Assert.Equal(1.0, results["film_loss_count"].Value);
        Assert.True(results["film_loss_fraction"].Uncertainty >= results["film_loss_fraction"].Value);
        Assert.Equal(Math.Sqrt(1.0 + (1.96 * 1.96)), results["film_loss_count"].Uncertainty!.Value, 0.01);
    }

    // The reflection of a white lamp or of the sky adds light; the paint's own color stays.
    [Fact]
    public void Measure_sharp_white_reflection_is_no_loss()
    {
        var paint = Panel(Blue, Blue, Disk);
        var panel = Add(paint, 0.3);

        Assert.Equal(0.0, Measure(panel)["film_loss_fraction"].Value);
    }

    [Fact]
    public void Measure_shade_is_no_loss() => Assert.Equal(
        0.0, Measure(Panel(Blue, (18, 44, 98), Disk))["film_loss_fraction"].Value);

    [Fact]
    public void Measure_soft_change_of_color_is_no_loss()
    {
        var sharp = Panel(Blue, Cream, Disk);
        var panel = Pattern.Panel(
            GaussianFilter.Apply(sharp.Red, 20.0), GaussianFilter.Apply(sharp.Green, 20.0), GaussianFilter.Apply(sharp.Blue, 20.0));

        Assert.Equal(0.0, Measure(panel)["film_loss_fraction"].Value);
    }

    [Fact]
    public void Measure_gray_on_gray_cannot_be_told() =>
        Assert.Equal(FilmLoss.Neutral, Measure(Panel(Gray, (90, 91, 92), Disk))["film_loss_fraction"].AbsentReason);

    [Fact]
    public void Measure_whole_paint_has_none_and_no_size()
    {
        var results = Measure(Panel(Blue, Blue, Disk));

        Assert.Equal(0.0, results["film_loss_fraction"].Value);
        Assert.Equal(FilmLoss.NoLoss, results["film_loss_large_px"].AbsentReason);
    }

    [Fact]
    public void Measure_without_scale_has_no_millimeters() => Assert.Equal(
        AbsentReasons.NoScale, Measure(Panel(Blue, Cream, Disk))["film_loss_large_mm"].AbsentReason);

    [Fact]
    public void Measure_many_colors_have_no_paint()
    {
        // Stripes of eight hues.
        var panel = Pattern.Panel(
            Pattern.Draw(160, 160, (x, _) => 0.2 + (0.15 * Math.Cos(x / 20 * Math.PI / 4))),
            Pattern.Draw(160, 160, (x, _) => 0.2 + (0.15 * Math.Cos((x / 20 * Math.PI / 4) + 2))),
            Pattern.Draw(160, 160, (x, _) => 0.2 + (0.15 * Math.Cos((x / 20 * Math.PI / 4) + 4))));

        Assert.Equal(FilmLoss.NoPaint, Measure(panel)["film_loss_fraction"].AbsentReason);
    }

    [Fact]
    public void Measure_small_clipped_or_dark_panel_is_absent()
    {
        static PanelPlanes Even(int side, double level) => Pattern.Gray(Pattern.Draw(side, side, (_, _) => level));

        Assert.Equal(FilmLoss.TooSmall, Measure(Even(63, 0.2))["film_loss_fraction"].AbsentReason);
        Assert.Equal(RustMetrics.MostlyClipped, Measure(Even(80, 1.0))["film_loss_fraction"].AbsentReason);
        Assert.Equal(RustMetrics.TooDark, Measure(Even(80, 0.001))["film_loss_fraction"].AbsentReason);
    }

    private static bool Disk(int x, int y) => Math.Pow(x - 200, 2) + Math.Pow(y - 150, 2) <= 1600.0;

    private static PanelPlanes Panel(
        (int R, int G, int B) paint, (int R, int G, int B) inside, Func<int, int, bool> isInside, double? mmPerPx = null)
    {
        var random = new Random(11);
        Plane Channel(int a, int b) => Pattern.Draw(400, 300, (x, y) =>
            SrgbTransfer.ByteToLinear[isInside(x, y) ? b : a] * (1.0 + (0.0005 * x) + (0.02 * Pattern.Normal(random))));
        return Pattern.Panel(
            Channel(paint.R, inside.R), Channel(paint.G, inside.G), Channel(paint.B, inside.B), mmPerPx);
    }

    private static PanelPlanes Add(PanelPlanes panel, double light)
    {
        Plane More(Plane plane) => Pattern.Draw(
            plane.Width, plane.Height, (x, y) => plane[x, y] + (Disk(x, y) ? light : 0.0));
        return Pattern.Panel(More(panel.Red), More(panel.Green), More(panel.Blue));
    }

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel)
    {
        using var scope = new PlaneScope();
        var measurements = new List<Measurement>();
        AreaMetrics.Measure(panel, panel.Lightness.Values.Average(), scope, measurements);
        return measurements.ToDictionary(measurement => measurement.Metric);
    }
}
