using CoatScan.Metrics.Lines;

namespace CoatScan.MetricsTests.Lines;

/// <summary>Rays from one point: few cross there, a clump of many does not (common practice, no source).</summary>
public sealed class LineChainsTests
{
    private const int SidePx = 401;

    private const double RadiusPx = 190;

    [Fact]
    public void Of_a_few_rays_joins_the_opposite_ones()
    {
        var graph = Rays(4);

        Assert.True(LineChains.Of(graph).Count < graph.Paths.Count);
    }

    [Fact]
    public void Of_more_rays_than_can_be_followed_ends_all_of_them_at_the_clump()
    {
        var graph = Rays(3 * LineChains.MostEnds / 2);

        Assert.True(graph.Paths.Count > LineChains.MostEnds);
        Assert.Equal(graph.Paths.Count, LineChains.Of(graph).Count);
    }

    private static LineGraph Rays(int count)
    {
        var mask = new bool[SidePx * SidePx];
        for (var ray = 0; ray < count; ray++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * ray / count);
            for (var radius = 0.0; radius < RadiusPx; radius += 0.25)
            {
                mask[((int)Math.Round((SidePx / 2) + (radius * sin)) * SidePx) + (int)Math.Round((SidePx / 2) + (radius * cos))] = true;
            }
        }

        return LineGraph.Of(mask, SidePx, SidePx, 5);
    }
}
