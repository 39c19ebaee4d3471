using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class TiltedSpotsTests
{
    private const double TrueMm = 5.0;

    // A homography with w = 1 + 0.15 u: the right of the picture lies farther away.
    private static readonly PlaneScale Tilted = new(
        [1, 0, 0, 0, 1, 0, 0.15, 0], new double[8, 8], (200, 200), 100, 10, 0.02);

    [Fact]
    public void Add_on_a_tilted_panel_measures_every_spot_where_it_lies()
    {
        List<Mark> spots = [.. new[] { 40.0, 120.0, 200.0, 280.0, 360.0 }.Select(x => Spot(x, 200))];
        spots.Sort((first, second) => second.AreaPx.CompareTo(first.AreaPx));
        var measurements = new List<Measurement>();

        SpotSizes.Add(Panel(), spots, null, measurements);

        // Closed form: each spot was drawn TrueMm wide; areas are whole pixels, which is 1 % here.
        Assert.True(spots[0].DiameterPx > 1.5 * spots[^1].DiameterPx);
        Assert.Equal(TrueMm, Value("spot_diameter_mm"), 0.05);
        Assert.Equal(TrueMm, Value("spot_diameter_large_mm"), 0.05);

        double Value(string metric) => measurements.Single(one => one.Metric == metric).Value!.Value;
    }

    [Fact]
    public void Of_a_tilted_panel_is_the_area_between_its_corners()
    {
        var area = PanelArea.Of(Panel())!.Value;

        // The corners' quadrilateral by the shoelace formula; the sum over cells is a mid-point rule.
        (double X, double Y)[] corners = [Map(0, 0), Map(400, 0), Map(400, 400), Map(0, 400)];
        var twice = corners.Zip(corners.Skip(1).Append(corners[0]))
            .Sum(side => (side.First.X * side.Second.Y) - (side.Second.X * side.First.Y));
        Assert.Equal(Math.Abs(twice) / 2, area.Mm2, 0.005 * area.Mm2);
        Assert.Equal(0.04, area.Uncertainty, 1e-9);
    }

    [Fact]
    public void Of_without_a_scale_is_nothing() =>
        Assert.Null(PanelArea.Of(Pattern.Gray(Pattern.Draw(64, 64, (_, _) => 0.2))));

    private static (double X, double Y) Map(double x, double y)
    {
        var (u, v) = ((x - 200) / 100, (y - 200) / 100);
        return (10 * u / (1 + (0.15 * u)), 10 * v / (1 + (0.15 * u)));
    }

    private static Mark Spot(double x, double y)
    {
        var radius = TrueMm / Tilted.MmPerPxAt(x, y)!.Value / 2;
        var (column, row, reach) = ((int)x, (int)y, (int)radius);
        return new Mark(
            column - reach, row - reach, column + reach, row + reach, x, y, (int)Math.Round(Math.PI * radius * radius), -10, false);
    }

    private static PanelPlanes Panel() => Pattern.Gray(Pattern.Draw(400, 400, (_, _) => 0.2), 0.1) with
    {
        Scale = Tilted,
        ScaleUncertainty = 0.5,
    };
}
