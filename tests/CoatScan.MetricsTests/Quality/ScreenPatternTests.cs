using CoatScan.Metrics;
using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Quality;

/// <summary>A display: square dots with dark gaps, turned, averaged over the pixels of a camera.</summary>
public sealed class ScreenPatternTests
{
    private const int Width = 640;
    private const int Height = 512;

    [Theory]
    [InlineData(2.3, 3)]
    [InlineData(3.1, 12)]
    [InlineData(4.5, 20)]
    [InlineData(6.2, 41)]
    [InlineData(1.3, 7)]
    public void Measure_dots_or_their_moire_show(double pitchPx, double turnDegrees) =>
        Assert.True(ScreenPattern.Measure(Display(pitchPx, turnDegrees, gap: 0.25)) > 0.9);

    [Fact]
    public void Measure_rises_once_and_for_all_with_the_gap_between_the_dots()
    {
        double[] gaps = [0, 0.01, 0.02, 0.05, 0.1, 0.2, 0.3];

        double[] shares = [.. gaps.Select(gap => ScreenPattern.Measure(Display(3.1, 12, gap))!.Value)];

        Assert.Equal(0.0, shares[0]);
        Assert.Equal(1.0, shares[^1]);
        Assert.Equal(shares.Order(), shares);
    }

    [Fact]
    public void Measure_what_paint_shows_is_no_display()
    {
        var random = new Random(5);
        Assert.Equal(0.0, Of((_, _) => 0.3 + (0.05 * Pattern.Normal(random))));
        Assert.Equal(0.0, Of((x, y) => (x / 90 % 2) + (y / 70 % 2) == 1 ? 0.5 : 0.1));

        // One direction only: a grating of scratches, 8 px apart.
        Assert.Equal(0.0, Of((x, y) => 0.3 + (0.1 * Math.Sin(((0.94 * x) + (0.34 * y)) * Math.PI / 4))));
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(1.6)]
    public void Measure_blocks_of_coding_are_no_display(double originalPxPerPx)
    {
        double period = 8 / originalPxPerPx;
        var random = new Random(8);
        var blocks = new Dictionary<(int, int), double>();
        double Block(int x, int y)
        {
            var key = ((int)(x / period), (int)(y / period));
            return blocks.TryGetValue(key, out double value) ? value : blocks[key] = 0.3 + (0.02 * Pattern.Normal(random));
        }

        Assert.InRange(ScreenPattern.Measure(Pattern.Gray(Pattern.Draw(Width, Height, Block), originalPxPerPx: originalPxPerPx))!.Value, 0.0, 0.1);
    }

    [Fact]
    public void Measure_dark_or_small_tells_nothing()
    {
        Assert.Null(ScreenPattern.Measure(Pattern.Gray(new Plane(Width, Height))));
        Assert.Null(ScreenPattern.Measure(Pattern.Gray(Pattern.Draw(200, 200, (_, _) => 0.3))));
    }

    private static double Of(Func<int, int, double> light) => ScreenPattern.Measure(Pattern.Gray(Pattern.Draw(Width, Height, light)))!.Value;

    private static PanelPlanes Display(double pitchPx, double turnDegrees, double gap)
    {
        const int samples = 5;
        var (sin, cos) = Math.SinCos(turnDegrees * Math.PI / 180);
        return Pattern.Gray(Pattern.Draw(Width, Height, (x, y) =>
        {
            var sum = 0.0;
            for (var s = 0; s < samples * samples; s++)
            {
                double px = x + ((s % samples) + 0.5) / samples;
                double py = y + ((s / samples) + 0.5) / samples;
                double u = ((cos * px) + (sin * py)) / pitchPx;
                double v = ((cos * py) - (sin * px)) / pitchPx;
                sum += u - Math.Floor(u) < gap || v - Math.Floor(v) < gap ? 0.02 : 0.4;
            }

            return sum / (samples * samples);
        }));
    }
}
