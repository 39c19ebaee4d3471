using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Texture;
using CoatScan.MetricsTests.Reflection;
using CsCheck;

namespace CoatScan.MetricsTests.Texture;

public sealed class WavinessTests
{
    private const double BlackLuminance = 0.07;

    // Rms of the band of a sine: amplitude / sqrt 2 times the closed-form gain; at black paint the normalization is 1.
    [Theory]
    [InlineData(6.3, 4)]
    [InlineData(11.0, 8)]
    [InlineData(20.5, 16)]
    [InlineData(40.3, 32)]
    [InlineData(80.7, 64)]
    public void Measure_ripple_has_the_closed_form_energy_in_every_band(double wavelengthPx, int strongest)
    {
        const double contrast = 0.05;
        var results = Measure(Pattern.Gray(Ripple(600, 560, wavelengthPx, contrast)));

        foreach (var shortest in new[] { 4, 8, 16, 32, 64 })
        {
            var measurement = results[WavinessBands.PixelMetric(WavinessBands.Contrast, shortest)];
            var expected = contrast / Math.Sqrt(2.0) * OctaveBands.Gain(shortest, wavelengthPx);
            Assert.Equal(expected, measurement.Value!.Value, 0.0035);
            Assert.True(measurement.Value <= results[WavinessBands.PixelMetric(WavinessBands.Contrast, strongest)].Value);
        }
    }

    [Fact]
    public void Measure_with_scale_names_the_band_of_the_wavelength()
    {
        // 1.7 mm at 0.2 mm a pixel are 8.5 px.
        var results = Measure(Pattern.Gray(Ripple(800, 800, 8.5, 0.05), mmPerPx: 0.2));

        var band = results["waviness_contrast_1_2_to_2_4_mm"];
        Assert.Equal(0.05 / Math.Sqrt(2.0) * OctaveBands.Gain(1.2, 1.7), band.Value!.Value, 0.0015);
        Assert.NotNull(band.Uncertainty);
        Assert.Equal(WavinessBands.InMillimeters, results["waviness_contrast_8_16_px"].AbsentReason);
        Assert.Contains("does not resolve", results["waviness_contrast_0_6_to_1_2_mm"].AbsentReason, StringComparison.Ordinal);
        Assert.True(results["waviness_contrast_2_4_to_4_8_mm"].Value < 0.6 * band.Value);
    }

    // E-4 of the reference: the same waviness over base reflectance 0.03 and 0.8, mirror reflectance 0.04 of the
    // surroundings. The contrast R / (R + rho) differs twelvefold; normalized, the two agree within what they state.
    [Fact]
    public void Measure_same_waviness_on_black_and_white_is_equal_after_normalization()
    {
        var (dark, light) = (Reflecting(0.03, 0.1), Reflecting(0.8, 0.1));
        var black = Measure(Pattern.Gray(dark))["waviness_contrast_8_16_px"];
        var white = Measure(Pattern.Gray(light))["waviness_contrast_8_16_px"];

        Assert.Equal(12.0, MedianRmsOf8To16Px(dark) / MedianRmsOf8To16Px(light), 1.0);
        Assert.Equal(black.Value!.Value, white.Value!.Value, black.Uncertainty!.Value + white.Uncertainty!.Value);
        Assert.Equal(1.0, white.Value.Value / black.Value.Value, 0.1);
    }

    [Fact]
    public void Measure_uniform_reflection_is_absent_not_smooth()
    {
        var noise = Pattern.Noise(560, 560, 4);
        var results = Measure(Pattern.Gray(
            Pattern.Draw(560, 560, (x, y) => BlackLuminance * (1.0 + (0.01 * noise[x, y])))));

        foreach (var shortest in WavinessBands.ShortestPx)
        {
            var metric = WavinessBands.PixelMetric(WavinessBands.Contrast, shortest);
            Assert.Equal(WavinessBands.NothingToReflect, results[metric].AbsentReason);
        }
    }

    [Fact]
    public void Measure_stronger_ripple_reads_stronger() =>
        Gen.Select(Gen.Double[0.01, 0.1], Gen.Double[1.1, 2.0], Gen.Double[5.0, 7.5]).Sample(
            (contrast, factor, wavelength) =>
                Measure(Pattern.Gray(Ripple(160, 160, wavelength, factor * contrast)))["waviness_contrast_4_8_px"].Value
                > Measure(Pattern.Gray(Ripple(160, 160, wavelength, contrast)))["waviness_contrast_4_8_px"].Value,
            iter: 8);

    [Fact]
    public void Measure_mirrored_panel_reads_the_same()
    {
        var panel = Pattern.Gray(Ripple(301, 280, 9.0, 0.05));
        var direct = Measure(panel);
        var mirrored = Measure(Pattern.MirrorX(panel));

        Assert.Equal(direct["waviness_contrast_8_16_px"].Value!.Value, mirrored["waviness_contrast_8_16_px"].Value!.Value, 5e-4);
    }

    [Fact]
    public void Measure_sensor_noise_is_taken_off()
    {
        var noise = Pattern.Noise(400, 400, 9);
        var smooth = Ripple(400, 400, 6.3, 0.0);
        var noisy = Pattern.Draw(400, 400, (x, y) => smooth[x, y] * (1.0 + (0.03 * noise[x, y])));

        var value = Measure(Pattern.Gray(noisy))["waviness_contrast_4_8_px"].Value!.Value;

        // White noise of 0.03 alone would leave 0.03 x 0.29.
        Assert.InRange(value, 0.0, 0.003);
    }

    // Trap: block coding makes steps every 8 px. The steps of a real coder are imitated by quantized block means.
    [Theory]
    [InlineData(1.0)]
    [InlineData(1.6)]
    public void Measure_block_grid_does_not_pose_as_a_band(double originalPxPerPx)
    {
        var period = BlockGrid.BlockPx / originalPxPerPx;
        var random = new Random(6);
        var offsets = new double[200 * 200];
        for (var i = 0; i < offsets.Length; i++)
        {
            offsets[i] = 0.02 * (random.NextDouble() - 0.5);
        }

        var smooth = Ripple(480, 480, 10.0, 0.0);
        var noise = Pattern.Noise(480, 480, 12);
        var coded = Pattern.Draw(480, 480, (x, y) => smooth[x, y] * (1.0 + (0.0005 * noise[x, y])
            + offsets[((int)Math.Round(y / period, MidpointRounding.ToPositiveInfinity) * 200) + (int)Math.Round(x / period)]));

        using var scope = new PlaneScope();
        var untouched = LogLuminance.Of(coded, coded, coded, scope);
        Assert.True(BlockGrid.Remove(untouched, originalPxPerPx) > 0.0);
        var before = new OctaveBands(LogLuminance.Of(coded, coded, coded, scope), new bool[480 * 480], scope)
            .MeasurePixelBands(1)[0]!.MedianRms;
        var after = Measure(Pattern.Gray(coded, originalPxPerPx: originalPxPerPx))["waviness_contrast_4_8_px"].Value!.Value;

        Assert.True(before > 0.0006, $"{before}");
        Assert.True(after < 0.65 * before, $"{after} of {before}");
    }

    // Trap T10 with the blocks of a real coder: a smooth reflection whose only texture is what the coding made of it. What is
    // left of that in the bands lies within the stated uncertainty, and no band near 8 px rises above its neighbors'
    // uncertainty.
    [Theory]
    [InlineData(90)]
    [InlineData(75)]
    [InlineData(60)]
    public void Measure_jpeg_of_a_smooth_reflection_has_no_band_of_its_blocks(int quality)
    {
        var noise = Pattern.Noise(480, 480, 21);
        var smooth = Pattern.Draw(480, 480, (x, y) => BlackLuminance
            * Math.Exp((0.3 * Math.Sin((x + (0.4 * y)) / 90.0)) + (0.01 * noise[x, y])));
        var clean = Measure(Pattern.Gray(smooth));
        var coded = Measure(Pattern.Gray(JpegLikeCoder.Code(smooth, quality)));

        foreach (var shortest in new[] { 4, 8, 16, 32 })
        {
            var metric = WavinessBands.PixelMetric(WavinessBands.Contrast, shortest);
            var (before, after) = (clean[metric], coded[metric]);
            Assert.True(
                Math.Abs(after.Value!.Value - before.Value!.Value) <= after.Uncertainty!.Value,
                $"{metric}: {after.Value} +- {after.Uncertainty}, {before.Value} before the coding");
        }
    }

    [Fact]
    public void Measure_uncertainty_grows_with_blur_and_with_an_uncertain_scale()
    {
        var panel = Pattern.Gray(Ripple(400, 400, 8.5, 0.05), 0.2);
        double Uncertainty(double relative, double? blurPx)
        {
            var measurements = new List<Measurement>();
            Waviness.Measure(panel, new LengthScale(0.2, relative), blurPx, measurements, CancellationToken.None);
            return measurements.Single(measurement => measurement.Metric == "waviness_contrast_1_2_to_2_4_mm").Uncertainty!.Value;
        }

        Assert.True(Uncertainty(0.0, 1.5) > Uncertainty(0.0, null));
        Assert.True(Uncertainty(0.2, null) > Uncertainty(0.0, null));
    }

    [Fact]
    public void Remove_plane_without_a_grid_is_left_alone()
    {
        var noise = Pattern.Noise(300, 300, 8);
        var copy = (float[])noise.Values.Clone();
        var grating = Pattern.Draw(300, 300, (x, _) => Math.Sin(2.0 * Math.PI * x / 8.0));

        Assert.Equal(0.0, BlockGrid.Remove(noise, 1.0));
        Assert.Equal(copy, noise.Values);
        Assert.Equal(0.0, BlockGrid.Remove(grating, 1.0));
    }

    [Fact]
    public void Measure_clipped_tiles_are_left_out()
    {
        var clean = Ripple(256, 256, 6.3, 0.05);
        var glare = Pattern.Draw(256, 256, (x, y) => x < 100 && (x / 3 % 2) == 0 ? 1.0 : clean[x, y]);

        var expected = Measure(Pattern.Gray(clean))["waviness_contrast_4_8_px"].Value!.Value;
        var actual = Measure(Pattern.Gray(glare))["waviness_contrast_4_8_px"].Value!.Value;

        Assert.Equal(expected, actual, 0.1 * expected);
    }

    [Fact]
    public void Measure_every_tile_clipped_is_absent()
    {
        var panel = Pattern.Gray(Pattern.Draw(128, 128, (x, y) => x % 8 == 0 ? 1.0 : 0.1 + (0.001 * x)));

        Assert.Equal(Waviness.AllClipped, Measure(panel)["waviness_contrast_4_8_px"].AbsentReason);
    }

    [Fact]
    public void Measure_small_panel_and_missing_scale_are_absent()
    {
        var results = Measure(Pattern.Gray(Ripple(100, 100, 6.0, 0.05)));

        Assert.NotNull(results["waviness_contrast_8_16_px"].Value is null ? results["waviness_contrast_4_8_px"].Value : 0.0);
        Assert.Contains("too small", results["waviness_contrast_64_128_px"].AbsentReason, StringComparison.Ordinal);
        Assert.Equal(AbsentReasons.NoScale, results["waviness_contrast_1_2_to_2_4_mm"].AbsentReason);
        Assert.Contains(
            "too small",
            Measure(Pattern.Gray(Ripple(100, 100, 6.0, 0.05), 0.1))["waviness_contrast_9_6_to_19_2_mm"].AbsentReason,
            StringComparison.Ordinal);
    }

    // A slow gradient to reflect and a slanted ripple of the given contrast, at the luminance of black paint.
    private static Plane Ripple(int width, int height, double wavelengthPx, double contrast) => Pattern.Draw(
        width, height, (x, y) => BlackLuminance * Math.Exp(
            (0.1 * ((double)x / width - 0.5))
            + (contrast * Math.Sin(2.0 * Math.PI * ((0.8 * x) + (0.6 * y)) / wavelengthPx))));

    // Surroundings of luminance around 1 with a gradient and their waviness, mirrored by 4 % over a matte base.
    private static Plane Reflecting(double baseReflectance, double distortion) => Pattern.Draw(
        400, 400, (x, y) => baseReflectance + (0.04 * (1.0
            + (0.8 * ((x / 400.0) - 0.5))
            + (distortion * Math.Sin(2.0 * Math.PI * ((0.8 * x) + (0.6 * y)) / 11.0)))));

    private static double MedianRmsOf8To16Px(Plane light)
    {
        using var scope = new PlaneScope();
        var contrast = LogLuminance.Of(light, light, light, scope);
        return new OctaveBands(contrast, new bool[contrast.Values.Length], scope).MeasurePixelBands(2)[1]!.MedianRms;
    }

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel)
    {
        var measurements = new List<Measurement>();
        Waviness.Measure(
            panel,
            panel.MmPerPx is { } mmPerPx ? new LengthScale(mmPerPx, 0.0) : null,
            null,
            measurements,
            CancellationToken.None);
        return measurements.ToDictionary(measurement => measurement.Metric);
    }
}
