using CoatScan.Metrics;
using CoatScan.Metrics.Filters;

namespace CoatScan.MetricsTests.Filters;

public sealed class PixelHalvingTests
{
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 2)]
    [InlineData(3, 5)]
    [InlineData(16, 1)]
    [InlineData(33, 7)]
    [InlineData(64, 64)]
    [InlineData(129, 66)]
    public void Apply_gives_the_mean_of_two_by_two(int width, int height)
    {
        var random = new Random(74);
        var source = new Plane(width, height);
        for (var i = 0; i < source.Values.Length; i++)
        {
            source.Values[i] = (random.NextSingle() * 200.0f) - 100.0f;
        }

        var target = new Plane(Math.Max(1, width / 2), Math.Max(1, height / 2));
        PixelHalving.Apply(source, target);

        for (var y = 0; y < target.Height; y++)
        {
            for (var x = 0; x < target.Width; x++)
            {
                var (right, below) = (Math.Min((2 * x) + 1, width - 1), Math.Min((2 * y) + 1, height - 1));
                var mean = (source[2 * x, 2 * y] + source[right, 2 * y] + source[2 * x, below] + source[right, below]) / 4.0f;
                Assert.Equal(mean, target[x, y], 1e-4f);
            }
        }
    }
}
