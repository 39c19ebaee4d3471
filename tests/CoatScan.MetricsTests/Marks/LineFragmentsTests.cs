using CoatScan.Metrics;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class LineFragmentsTests
{
    private const int Side = 240;
    private const double Center = 120.0;

    // A seam of 3 px that widens to a clump of 5 px radius, straight at any angle, and bent with a radius of 150 px.
    [Theory]
    [InlineData(0.0, 0.0)]
    [InlineData(33.0, 0.0)]
    [InlineData(75.0, 0.0)]
    [InlineData(20.0, 150.0)]
    public void IsOnLine_clump_of_a_seam_is(double degrees, double bendPx) =>
        Assert.True(LineFragments.IsOnLine(Clump(-20.0), Draw((along, across) => Math.Abs(across - Sag(along, bendPx)) <= 1.5, degrees)));

    // The same seam brighter than the paint, as a lit joint: its clump is bright too.
    [Fact]
    public void IsOnLine_bright_clump_of_a_bright_seam_is() =>
        Assert.True(LineFragments.IsOnLine(Clump(20.0), Draw((_, across) => Math.Abs(across) <= 1.5, 10.0, contrast: 20.0)));

    [Fact]
    public void IsOnLine_what_stands_alone_or_at_an_end_or_beside_a_line_is_not()
    {
        Func<double, double, bool>[] others =
        [
            (_, _) => false,
            (along, across) => along > 0.0 && Math.Abs(across) <= 1.5, // The line ends at the spot.
            (_, across) => Math.Abs(across - 14.0) <= 1.5, // The line passes by.
            (along, across) => Math.Pow(Math.Abs(along) - 10.0, 2) + (across * across) <= 25.0, // Two spots touch it.
            (along, _) => Math.Abs(along - 20.0) <= 10.0, // A bar crosses beside it.
        ];

        Assert.All(others, other => Assert.False(LineFragments.IsOnLine(Clump(-20.0), Draw(other, 33.0))));
    }

    [Fact]
    public void IsOnLine_line_much_fainter_than_the_spot_does_not_carry_it() => Assert.False(LineFragments.IsOnLine(
        Clump(-20.0), Draw((_, _) => false, 0.0, faint: (_, across) => Math.Abs(across) <= 1.5)));

    // A broken seam: where dirt fills it, a piece of it stands apart.
    [Fact]
    public void Measure_clump_of_a_seam_is_counted_apart()
    {
        var lightness = Draw((along, across) => (Math.Abs(across) <= 1.5 && Math.Abs(along) >= 13.0) || (along * along) + (across * across) <= 81.0, 33.0);
        var panel = Pattern.Gray(Pattern.Draw(Side, Side, (x, y) => Pattern.Linear(
            Math.Pow(x - 40, 2) + Math.Pow(y - 200, 2) <= 36.0 ? 40.0 : lightness[x, y])));
        var measurements = new List<Findings.Measurement>();

        var spots = SpotMetrics.Measure(panel, 60.0, measurements);

        Assert.Contains(spots, spot => Math.Abs(spot.CenterXPx - 40.0) < 1.0);
        Assert.DoesNotContain(spots, spot => Math.Abs(spot.CenterXPx - Center) < 9.0 && Math.Abs(spot.CenterYPx - Center) < 9.0);
        Assert.True(measurements.Single(one => one.Metric == "spot_apart_on_line_count").Value >= 1.0);
    }

    private static double Sag(double along, double bendPx) => bendPx > 0.0 ? bendPx - Math.Sqrt(Math.Max(0.0, (bendPx * bendPx) - (along * along))) : 0.0;

    private static Mark Clump(double contrast) => new(115, 115, 126, 126, Center, Center, 81, contrast, IsRing: false);

    private static Plane Draw(
        Func<double, double, bool> isLine, double degrees, double contrast = -20.0, Func<double, double, bool>? faint = null)
    {
        var (sine, cosine) = Math.SinCos(degrees * Math.PI / 180.0);
        var noise = Pattern.Noise(Side, Side, 8);
        return Pattern.Draw(Side, Side, (x, y) =>
        {
            var (dx, dy) = (x - Center, y - Center);
            var (along, across) = ((cosine * dx) + (sine * dy), (cosine * dy) - (sine * dx));
            var isMarked = (dx * dx) + (dy * dy) <= 26.0 || isLine(along, across);
            return 60.0 + (isMarked ? contrast : faint?.Invoke(along, across) == true ? 0.2 * contrast : 0.0) + (0.5 * noise[x, y]);
        });
    }
}
