using CoatScan.Metrics.Features;

namespace CoatScan.MetricsTests.Features;

public sealed class LocalPatternTests
{
    // Ojala et al. 2002: in a constant area all eight neighbors are not darker, code 8.
    [Fact]
    public void Histogram_constant_plane_is_all_code_eight() =>
        Assert.Equal(1.0, LocalPattern.Histogram(Pattern.Draw(20, 20, (_, _) => 5.0), 1, 1)[8]);

    [Fact]
    public void Histogram_isolated_points_are_flat_spots_and_ramps_edges()
    {
        // A bright point has no brighter neighbor: code 0. On a ramp along x five of eight are not darker: code 5.
        var points = LocalPattern.Histogram(Pattern.Draw(41, 41, (x, y) => x % 4 == 2 && y % 4 == 2 ? 9.0 : 1.0), 1, 1);
        var ramp = LocalPattern.Histogram(Pattern.Draw(40, 40, (x, _) => x), 1, 1);

        Assert.True(points[0] > 0.05);
        Assert.Equal(1.0, ramp[5], 1e-12);
    }

    [Fact]
    public void Histogram_turned_plane_is_the_same_and_sums_to_one()
    {
        var noise = Pattern.Noise(50, 50, 3);
        var direct = LocalPattern.Histogram(noise, 1, 1);
        var turned = LocalPattern.Histogram(Pattern.Draw(50, 50, (x, y) => noise[y, 49 - x]), 1, 1);

        Assert.Equal(direct, turned);
        Assert.Equal(1.0, direct.Sum(), 1e-12);
    }

    [Fact]
    public void Histogram_plane_without_interior_is_all_zero() =>
        Assert.All(LocalPattern.Histogram(Pattern.Draw(2, 2, (_, _) => 1.0), 1, 1), share => Assert.Equal(0.0, share));
}
