using CoatScan.Metrics;
using CoatScan.Metrics.Texture;

namespace CoatScan.MetricsTests.Texture;

public sealed class StructureTensorTests
{
    // Closed form: a grating has its own angle and coherence 1. (A Sobel kernel would be 0.66 degrees off at 30 and 120.)
    [Theory]
    [InlineData(0.0)]
    [InlineData(30.0)]
    [InlineData(45.0)]
    [InlineData(90.0)]
    [InlineData(120.0)]
    public void Measure_grating_has_its_angle_and_full_coherence(double degrees)
    {
        var reading = StructureTensor.Measure(Grating(degrees, 256), 4.0);

        var difference = Math.Abs(reading.AngleDegrees - degrees) % 180.0;
        Assert.True(Math.Min(difference, 180.0 - difference) < 1.0, $"{reading.AngleDegrees}");
        Assert.InRange(reading.Coherence, 0.98, 1.0);
        Assert.InRange(reading.GlobalCoherence, 0.97, 1.0);
    }

    // structure_tensor.json: 64 x 64, statistics over rows and columns 16 to 47; here over that square alone.
    [Fact]
    public void Measure_tabled_gratings_have_their_angle_within_a_degree()
    {
        foreach (var item in ReferenceData.Read("structure_tensor").GetProperty("cases").EnumerateObject()
            .Where(item => item.Value.TryGetProperty("gradient_angle_deg_mean", out _)))
        {
            var degrees = double.Parse(item.Name["grating_".Length..], System.Globalization.CultureInfo.InvariantCulture);

            var reading = StructureTensor.Measure(Grating(degrees, 64), 4.0);

            var off = reading.AngleDegrees - item.Value.GetProperty("gradient_angle_deg_mean").GetDouble();
            Assert.InRange(Math.Abs(Math.IEEERemainder(off, 180.0)), 0.0, 1.0);
            Assert.Equal(item.Value.GetProperty("coherence_mean_center").GetDouble(), reading.Coherence, 0.03);
        }
    }

    // The noise of structure_tensor.json: z = (1103515245 z + 12345) mod 2^31 from 12345, row by row. The table's mean is over the
    // middle and a Sobel kernel; with a Gaussian derivative of 1 px neighbors are more alike, so coherence is higher.
    [Fact]
    public void Measure_tabled_noise_has_little_coherence()
    {
        var cases = ReferenceData.Read("structure_tensor").GetProperty("cases");
        var z = 12345L;
        var noise = Pattern.Draw(64, 64, (_, _) => (z = ((1103515245L * z) + 12345L) % (1L << 31)) / (double)(1L << 31));

        var tabled = cases.GetProperty("lcg_noise_sigma4").GetProperty("coherence_mean_center").GetDouble();
        Assert.Equal(tabled, StructureTensor.Measure(noise, 4.0).Coherence, 0.08);
    }

    [Fact]
    public void Measure_crossed_gratings_and_noise_have_little_coherence()
    {
        var first = Grating(0.0, 128);
        var second = Grating(90.0, 128);
        var crossed = Pattern.Draw(128, 128, (x, y) => first[x, y] + second[x, y]);

        Assert.InRange(StructureTensor.Measure(crossed, 8.0).Coherence, 0.0, 0.05);
        Assert.InRange(StructureTensor.Measure(Pattern.Noise(128, 128, 2), 4.0).Coherence, 0.05, 0.3);
    }

    [Fact]
    public void Measure_constant_plane_has_none()
    {
        var reading = StructureTensor.Measure(Pattern.Draw(64, 64, (_, _) => 3.0), 4.0);

        Assert.Equal(0.0, reading.Coherence);
        Assert.Equal(0.0, reading.GlobalCoherence);
    }

    private static Plane Grating(double degrees, int side)
    {
        var (cosine, sine) = (Math.Cos(degrees * Math.PI / 180.0), Math.Sin(degrees * Math.PI / 180.0));
        return Pattern.Draw(side, side, (x, y) => Math.Sin(2.0 * Math.PI * ((x * cosine) + (y * sine)) / 8.0));
    }
}
