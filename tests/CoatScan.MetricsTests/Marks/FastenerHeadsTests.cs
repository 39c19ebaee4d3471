using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class FastenerHeadsTests
{
    private const int Side = 240;
    private const double Center = 120.0;
    private const double Recess = 8.0;

    // A screw: a dark recess, and about it the rim of a painted head, bright where it faces the light and dark on the other side.
    [Theory]
    [InlineData(18.0, 0.0)]
    [InlineData(24.0, 3.0)] // The recess is off its middle.
    public void Find_recess_in_a_lit_head_has_the_head(double headPx, double offPx)
    {
        var head = Assert.Single(FastenerHeads.Find([At(Center, Recess, -30.0)], Screw(headPx, offPx)));

        Assert.Equal(Center + offPx, head.X, 1.0);
        Assert.Equal(Center, head.Y, 1.0);
        Assert.Equal(headPx, head.RadiusPx, 1.5);
    }

    // A chip bares a layer of another color around its middle; a stain has no second edge; half a rim is a seam that bends.
    [Fact]
    public void Find_chip_with_a_bare_layer_lone_spot_and_half_a_rim_have_none()
    {
        Plane[] planes =
        [
            Draw((distance, _) => distance <= Recess ? 30.0 : distance <= 18.0 ? 75.0 : 60.0),
            Draw((distance, _) => distance <= Recess ? 30.0 : 60.0),
            Draw((distance, angle) => distance <= Recess ? 30.0 : Math.Abs(distance - 18.0) <= 1.5 && angle > 0.0 ? 45.0 : 60.0),
        ];

        Assert.All(planes, plane => Assert.Empty(FastenerHeads.Find([At(Center, Recess, -30.0)], plane)));
    }

    [Fact]
    public void Find_small_or_faint_mark_or_ring_is_not_looked_at()
    {
        var screw = Screw(18.0, 0.0);

        Assert.Empty(FastenerHeads.Find([At(Center, 2.5, -30.0)], screw));
        Assert.Empty(FastenerHeads.Find([At(Center, Recess, -4.0)], screw));
        Assert.Empty(FastenerHeads.Find([At(Center, Recess, -30.0) with { IsRing = true }], screw));
    }

    [Fact]
    public void Measure_marks_on_a_head_are_counted_apart()
    {
        var screw = Screw(18.0, 0.0);
        var panel = Pattern.Gray(Pattern.Draw(Side, Side, (x, y) => Pattern.Linear(
            Math.Pow(x - 40, 2) + Math.Pow(y - 200, 2) <= 36.0 ? 30.0 : screw[x, y])));
        var measurements = new List<Measurement>();

        var spots = SpotMetrics.Measure(panel, 60.0, measurements);

        Assert.Equal(40.0, Assert.Single(spots).CenterXPx, 0.5);
        Assert.Equal(1.0, measurements.Single(one => one.Metric == "spot_count").Value);
        Assert.True(measurements.Single(one => one.Metric == "spot_apart_in_head_count").Value >= 1.0);
    }

    private static Mark At(double center, double radiusPx, double contrast) => new(
        (int)(center - radiusPx), (int)(center - radiusPx), (int)(center + radiusPx) + 1, (int)(center + radiusPx) + 1,
        center, center, (int)(Math.PI * radiusPx * radiusPx), contrast, IsRing: false);

    private static Plane Screw(double headPx, double offPx)
    {
        var recess = Draw((distance, _) => distance <= Recess ? 30.0 : 60.0);
        return Pattern.Draw(Side, Side, (x, y) =>
        {
            var (dx, dy) = (x - Center - offPx, y - Center);
            var rim = Math.Exp(-0.5 * Math.Pow((Math.Sqrt((dx * dx) + (dy * dy)) - headPx) / 1.3, 2));
            return recess[x, y] + (rim * (dy > dx ? -14.0 : 14.0));
        });
    }

    private static Plane Draw(Func<double, double, double> lightness)
    {
        var noise = Pattern.Noise(Side, Side, 8);
        return Pattern.Draw(Side, Side, (x, y) =>
            lightness(Math.Sqrt(Math.Pow(x - Center, 2) + Math.Pow(y - Center, 2)), Math.Atan2(y - Center, x - Center)) + (0.4 * noise[x, y]));
    }
}
