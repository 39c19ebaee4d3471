using CoatScan.Metrics;
using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Quality;

public sealed class ExposureTests
{
    [Fact]
    public void Measure_ramp_with_two_clipped_areas_is_read_exactly()
    {
        var lightness = Pattern.Draw(100, 100, (x, _) => x + 0.5);
        var clipped = new bool[10_000];
        for (var i = 0; i < 200; i++)
        {
            clipped[i] = true;
        }

        clipped[5050] = true;

        var reading = Exposure.Measure(lightness, clipped);

        Assert.Equal(0.0201, reading.ClippedFraction, 1e-12);
        Assert.Equal(0.02, reading.LargestClippedFraction, 1e-12);
        Assert.Equal(50.0, reading.MeanLightness, 1e-4);
        Assert.Equal(5.0, reading.DarkLightness, 0.6);
        Assert.Equal(50.0, reading.MedianLightness, 0.6);
        Assert.Equal(95.0, reading.BrightLightness, 0.6);
    }

    [Fact]
    public void Measure_wrong_number_of_flags_is_refused() =>
        Assert.Throws<ArgumentException>(() => Exposure.Measure(new Plane(4, 4), new bool[15]));
}
