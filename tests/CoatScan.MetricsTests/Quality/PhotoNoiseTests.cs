using CoatScan.Metrics;
using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Quality;

public sealed class PhotoNoiseTests
{
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.5)]
    [InlineData(2.0)]
    [InlineData(5.0)]
    public void Measure_white_noise_is_its_standard_deviation(double sigma)
    {
        // The quietest quarter of the tiles reads a little less than all.
        Assert.Equal(sigma, Noise(Field(sigma)), (0.05 * sigma) + 1e-4);
    }

    [Fact]
    public void Measure_texture_of_half_a_panel_is_no_noise()
    {
        var random = new Random(3);
        var plane = Pattern.Draw(320, 320, (x, _) => 50.0 + (x < 200 ? 8.0 : 0.5) * Pattern.Normal(random));

        Assert.InRange(Noise(plane), 0.4, 0.6);
    }

    [Fact]
    public void Measure_slopes_and_edges_are_no_noise() =>
        Assert.Equal(0.0, Noise(Pattern.Draw(256, 256, (x, y) => (0.1 * x) + (y > 130 ? 40.0 : 5.0))), 1e-3);

    [Fact]
    public void Measure_clipped_or_dark_or_small_tells_nothing()
    {
        var plane = Field(1.0);
        var all = new bool[plane.Values.Length];
        Array.Fill(all, true);

        Assert.Null(PhotoNoise.Measure(plane, all));
        Assert.Null(PhotoNoise.Measure(new Plane(64, 64), new bool[64 * 64]));
        Assert.Null(PhotoNoise.Measure(new Plane(31, 200), new bool[31 * 200]));
        Assert.Throws<ArgumentException>(() => PhotoNoise.Measure(plane, new bool[3]));
    }

    private static double Noise(Plane plane) => PhotoNoise.Measure(plane, new bool[plane.Values.Length])!.Value;

    private static Plane Field(double sigma)
    {
        var random = new Random(1);
        return Pattern.Draw(320, 256, (_, _) => 50.0 + (sigma * Pattern.Normal(random)));
    }
}
