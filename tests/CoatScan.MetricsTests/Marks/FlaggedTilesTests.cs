using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class FlaggedTilesTests
{
    [Fact]
    public void MayMeet_never_misses_a_flagged_pixel_and_says_no_far_from_all()
    {
        const int Width = 300;
        const int Height = 210;
        var random = new Random(72);
        var mask = new bool[Width * Height];
        for (var i = 0; i < 6; i++)
        {
            mask[(random.Next(Height) * Width) + random.Next(Width)] = true;
        }

        var tiles = new FlaggedTiles(mask, Width, Height);

        var free = 0;
        for (var round = 0; round < 2000; round++)
        {
            var (x, y) = (random.Next(Width - 20), random.Next(Height - 20));
            var (endX, endY) = (x + random.Next(20), y + random.Next(20));
            if (!tiles.MayMeet(x, y, endX, endY))
            {
                free++;
                Assert.False(Holds(mask, x, y, endX, endY));
            }
        }

        Assert.InRange(free, 400, 2000);

        static bool Holds(bool[] mask, int x, int y, int endX, int endY) =>
            Enumerable.Range(y, endY - y + 1).Any(row => mask.AsSpan((row * Width) + x, endX - x + 1).Contains(true));
    }
}
