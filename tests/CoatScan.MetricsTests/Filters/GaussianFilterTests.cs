using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
using CsCheck;

namespace CoatScan.MetricsTests.Filters;

public sealed class GaussianFilterTests
{
    // ISO 16610-21: transmission 2^-(Lc/L)^2, 50 % at the cutoff; the cases are those of surface.json.
    [Fact]
    public void Apply_sampled_sine_has_the_standard_gain()
    {
        foreach (var item in ReferenceData.Read("surface").GetProperty("discrete_check").EnumerateArray())
        {
            var step = item.GetProperty("dx_mm").GetDouble();
            var wavelength = item.GetProperty("lambda_mm").GetDouble() / step;
            var cutoff = item.GetProperty("cutoff_mm").GetDouble() / step;

            Assert.Equal(item.GetProperty("sigma_px").GetDouble(), GaussianFilter.SigmaOfCutoff(cutoff), 1e-5);
            Assert.Equal(item.GetProperty("theory").GetDouble(), GaussianFilter.Gain(cutoff, wavelength), 1e-6);
            Assert.Equal(item.GetProperty("theory").GetDouble(), MeasuredGain(cutoff, wavelength, false), 1e-3);
            Assert.Equal(item.GetProperty("theory").GetDouble(), MeasuredGain(cutoff, wavelength, true), 1e-3);
        }
    }

    // Odd and even heights: rows are filtered two at a time.
    [Theory]
    [InlineData(1, 1, 1.5)]
    [InlineData(5, 3, 2.0)]
    [InlineData(40, 31, 0.8)]
    [InlineData(61, 32, 1.3)]
    public void Stream_hands_on_the_rows_that_apply_keeps(int width, int height, double sigmaPx)
    {
        var random = new Random(75);
        var source = new Plane(width, height);
        for (var i = 0; i < source.Values.Length; i++)
        {
            source.Values[i] = random.NextSingle();
        }

        var rows = new List<float>();
        GaussianFilter.Stream(source, sigmaPx, (y, row) =>
        {
            Assert.Equal(rows.Count, y * width);
            rows.AddRange(row);
        });

        Assert.Equal(GaussianFilter.Apply(source, sigmaPx).Values, rows);
    }

    // The sum over the kernel by definition, mirrored at the borders.
    [Theory]
    [InlineData(1, 1, 1.5)]
    [InlineData(3, 7, 2.0)]
    [InlineData(37, 22, 1.2)]
    [InlineData(70, 19, 1.9)]
    public void Apply_is_the_sum_over_the_kernel(int width, int height, double sigmaPx)
    {
        var random = new Random(76);
        var source = new Plane(width, height);
        for (var i = 0; i < source.Values.Length; i++)
        {
            source.Values[i] = random.NextSingle();
        }

        var kernel = GaussianFilter.Kernel(sigmaPx);
        var filtered = GaussianFilter.Apply(source, sigmaPx);

        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var sum = 0.0;
                for (var dy = 1 - kernel.Length; dy < kernel.Length; dy++)
                {
                    for (var dx = 1 - kernel.Length; dx < kernel.Length; dx++)
                    {
                        sum += kernel[Math.Abs(dx)] * (double)kernel[Math.Abs(dy)]
                            * source[SeparableFilter.Mirror(x + dx, width), SeparableFilter.Mirror(y + dy, height)];
                    }
                }

                Assert.Equal(sum, filtered[x, y], 1e-5);
            }
        }
    }

    [Fact]
    public void Gain_tabled_ratios_match()
    {
        foreach (var row in ReferenceData.Read("surface").GetProperty("transmission").GetProperty("rows").EnumerateArray())
        {
            var values = row.Doubles();
            Assert.Equal(values[1], GaussianFilter.Gain(1.0, values[0]), 1e-7);
        }
    }

    [Fact]
    public void Gain_falls_with_the_cutoff() =>
        Gen.Select(Gen.Double[1, 50], Gen.Double[1, 50], Gen.Double[2, 100]).Sample(
            (first, second, wavelength) => Math.Sign(first - second)
                == -Math.Sign(GaussianFilter.Gain(first, wavelength) - GaussianFilter.Gain(second, wavelength))
                || GaussianFilter.Gain(first, wavelength) < 1e-12,
            iter: 500);

    [Fact]
    public void Apply_mirrored_plane_gives_the_mirrored_result()
    {
        var source = Pattern.Noise(37, 29, 1);

        var direct = GaussianFilter.Apply(Pattern.MirrorX(source), 1.7);
        var mirrored = Pattern.MirrorX(GaussianFilter.Apply(source, 1.7));

        Pattern.AssertEqual(mirrored, direct, 1e-5);
    }

    [Fact]
    public void Apply_constant_plane_with_a_kernel_larger_than_it_stays_constant()
    {
        var source = new Plane(5, 3);
        source.Values.AsSpan().Fill(7.0f);

        var result = GaussianFilter.Apply(source, 6.0);

        Assert.All(result.Values, value => Assert.Equal(7.0, value, 1e-4));
    }

    [Fact]
    public void Apply_target_of_another_size_or_the_same_plane_is_refused()
    {
        var source = new Plane(8, 8);
        Assert.Throws<ArgumentException>(() => GaussianFilter.Apply(source, new Plane(8, 9), 1.0));
        Assert.Throws<ArgumentException>(() => GaussianFilter.Apply(source, source, 1.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => GaussianFilter.Apply(source, 0.0));
    }

    private static double MeasuredGain(double cutoff, double wavelength, bool vertical)
    {
        var length = (int)Math.Round(wavelength * Math.Ceiling(400.0 / wavelength));
        var plane = vertical ? new Plane(9, length) : new Plane(length, 9);
        Pattern.Fill(plane, (x, y) => Math.Cos(2.0 * Math.PI * ((vertical ? y : x) + 0.5) / wavelength));
        var result = GaussianFilter.Apply(plane, GaussianFilter.SigmaOfCutoff(cutoff));

        // The crest nearest the middle, corrected for its sampling phase by projection on the cosine.
        var (product, square) = (0.0, 0.0);
        for (var i = 0; i < length; i++)
        {
            var expected = vertical ? plane[4, i] : plane[i, 4];
            product += expected * (vertical ? result[4, i] : result[i, 4]);
            square += expected * expected;
        }

        return product / square;
    }
}
