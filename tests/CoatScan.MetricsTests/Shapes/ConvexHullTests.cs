using CoatScan.Metrics.Shapes;

namespace CoatScan.MetricsTests.Shapes;

public sealed class ConvexHullTests
{
    // By hand: a square is its own hull; a plus of five pixels has the 3 x 3 square less four half pixels.
    [Fact]
    public void AreaPx_square_and_plus_are_counted_by_hand()
    {
        Assert.Equal(12.0, ConvexHull.AreaPx([new(4, 0, 4, 0), new(5, 0, 4, 0), new(6, 0, 4, 0)]));
        Assert.Equal(7.0, ConvexHull.AreaPx([new(0, 1, 2, 0), new(1, 0, 3, 0), new(2, 1, 2, 0)]));
    }
}
