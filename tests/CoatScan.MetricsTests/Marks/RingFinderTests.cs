using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class RingFinderTests
{
    [Theory]
    [InlineData(8, 1.5, -8.0)]
    [InlineData(8, 4.0, -8.0)]
    [InlineData(12, 2.5, 8.0)]
    [InlineData(12, 4.0, -8.0)]
    public void Find_rings_are_rings_of_their_outer_size(int radius, double width, double contrast)
    {
        var random = new Random(5);
        var plane = Pattern.Draw(480, 480, (x, y) =>
        {
            var distance = Math.Sqrt(Math.Pow((x % 120) - 60, 2) + Math.Pow((y % 120) - 60, 2));
            return 50.0 + (distance <= radius && distance > radius - width ? contrast : 0.0) + (0.3 * Pattern.Normal(random));
        });

        var spots = SpotFinder.Find(plane, new bool[480 * 480])!;

        Assert.Equal(16, spots.Count);
        Assert.All(spots, spot => Assert.True(spot.IsRing));
        Assert.All(spots, spot => Assert.Equal(2.0 * radius, spot.DiameterPx, 1.0));
        Assert.All(spots, spot => Assert.Equal(Math.Sign(contrast), Math.Sign(spot.ContrastLightness)));
    }

    [Fact]
    public void Find_half_a_ring_is_none()
    {
        var plane = Pattern.Draw(480, 480, (x, y) =>
        {
            var distance = Math.Sqrt(Math.Pow((x % 120) - 60, 2) + Math.Pow((y % 120) - 60, 2));
            return 50.0 - (distance <= 10 && distance > 7 && y % 120 > 60 ? 8.0 : 0.0);
        });

        Assert.DoesNotContain(SpotFinder.Find(plane, new bool[480 * 480])!, spot => spot.IsRing);
    }
}
