using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Quality;

public sealed class TonalStructureTests
{
    // The second difference of a x^2 over 2 blocks of 16 px to either side is 2 a 32^2, whatever the block means add.
    [Theory]
    [InlineData(0.001, 2.048)]
    [InlineData(0.0005, 1.024)]
    [InlineData(-0.0005, 1.024)]
    public void Measure_parabola_is_its_second_difference(double curvature, double expected)
    {
        var plane = Pattern.Draw(320, 320, (x, _) => 60.0 + (curvature * (x - 160.0) * (x - 160.0)));
        // Inside a block a slope of up to 2 a 160 spreads the tones: its share of the noise is worked out here by hand.
        var spread = 0.0;
        for (var block = 0; block < 20; block++)
        {
            var tones = Enumerable.Range(block * 16, 16).Select(x => curvature * (x - 160.0) * (x - 160.0)).ToArray();
            spread += tones.Select(tone => (tone - tones.Average()) * (tone - tones.Average())).Average() / 20;
        }

        Assert.Equal(expected - (3 * Math.Sqrt(6 * spread / 256)), TonalStructure.Measure(plane)!.Value, 0.002);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(1.0)]
    [InlineData(15.0)]
    public void Measure_one_tone_a_slope_and_white_noise_have_none(double sigma)
    {
        var random = new Random(5);

        Assert.Equal(0.0, Structure((x, y) => 50.0 + (sigma * Pattern.Normal(random))), 0.02);
        Assert.Equal(0.0, Structure((x, y) => 20.0 + (0.1 * x) + (0.05 * y) + (sigma * Pattern.Normal(random))), 0.02);
    }

    [Fact]
    public void Measure_one_seam_line_across_the_photo_is_enough() =>
        Assert.InRange(Structure((x, y) => Math.Abs(y - 200) < 4 ? 20.0 : 60.0), 5, 40);

    // Spots of 6 px in a random field: their tones hang together over more than a pixel, unlike noise.
    [Fact]
    public void Measure_fine_texture_is_more_than_noise_of_the_same_spread()
    {
        var random = new Random(6);
        var cells = new double[80, 80];
        for (var i = 0; i < cells.Length; i++)
        {
            cells[i / 80, i % 80] = 4.0 * Pattern.Normal(random);
        }

        Assert.InRange(Structure((x, y) => 50.0 + cells[(int)y / 6, (int)x / 6]), 1.5, 10);
    }

    [Fact]
    public void Measure_small_photo_tells_nothing() =>
        Assert.Null(TonalStructure.Measure(Pattern.Draw(127, 500, (_, _) => 50.0)));

    private static double Structure(Func<double, double, double> tone) =>
        TonalStructure.Measure(Pattern.Draw(400, 400, (x, y) => tone(x, y)))!.Value;
}
