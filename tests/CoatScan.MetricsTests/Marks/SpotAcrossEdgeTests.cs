using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

/// <summary>A spot across the straight edge of a reflection is found whole; the reflection's own edge and corner are none.</summary>
public sealed class SpotAcrossEdgeTests
{
    private const int Side = 300;
    private const double SpotLightness = 15.0;
    private const double WeakEdge = 8.0;
    private const double StrongEdge = 20.0;

    // Half as strong as the spot. An edge that is stronger than it still hides it.
    [Theory]
    [InlineData(0.0, 0.0, 0.8)]
    [InlineData(0.6, 4.0, 0.8)]
    [InlineData(1.2, -5.0, 3.0)]
    [InlineData(2.5, 8.0, 3.0)]
    public void Find_spot_across_an_edge_has_its_place_and_size(double angle, double offsetPx, double widthPx)
    {
        const double Radius = 10.0;
        var plane = Draw((x, y) => 55.0 + Edge(WeakEdge, x, y, angle, offsetPx, widthPx)
            - (Math.Sqrt(Math.Pow(x - 150, 2) + Math.Pow(y - 150, 2)) <= Radius ? SpotLightness : 0.0));

        var spot = Assert.Single(SpotFinder.Find(plane, new bool[Side * Side])!);

        Assert.Equal(150.0, spot.CenterXPx, 1.0);
        Assert.Equal(150.0, spot.CenterYPx, 1.0);
        Assert.Equal(2.0 * Radius, spot.DiameterPx, 0.05 * 2.0 * Radius);
    }

    [Theory]
    [InlineData(0.3, 0.8)]
    [InlineData(1.0, 3.0)]
    public void Find_edge_alone_has_no_spot(double angle, double widthPx) =>
        Assert.Empty(SpotFinder.Find(Draw((x, y) => 55.0 + Edge(StrongEdge, x, y, angle, 0.0, widthPx)), new bool[Side * Side])!);

    [Fact]
    public void Find_corner_of_a_reflection_has_no_spot() =>
        Assert.Empty(SpotFinder.Find(Draw((x, y) => x > 150 && y > 120 ? 70.0 : 50.0), new bool[Side * Side])!);

    private static double Edge(double height, int x, int y, double angle, double offsetPx, double widthPx) =>
        height / (1.0 + Math.Exp(-(((x - 150) * Math.Cos(angle)) + ((y - 150) * Math.Sin(angle)) - offsetPx) / widthPx));

    private static Plane Draw(Func<int, int, double> lightness)
    {
        var random = new Random(6);
        var plane = GaussianFilter.Apply(Pattern.Draw(Side, Side, lightness), 0.8);
        return Pattern.Draw(Side, Side, (x, y) => plane[x, y] + (0.2 * Pattern.Normal(random)));
    }
}
