using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Reflection;
using CoatScan.Metrics.Texture;
using CoatScan.MetricsTests.Reflection;

namespace CoatScan.MetricsTests.Texture;

public sealed class EdgeWavinessTests
{
    // Rms slope of a shift a sin(2 pi s / L): root 2 pi a / L (surface.json, Wdq), times the gain of the band.
    [Theory]
    [InlineData(4.0)]
    [InlineData(2.5)]
    public void Measure_ripple_has_the_closed_form_slope_in_every_band(double wavelengthMm)
    {
        var scene = new MirrorScene { SidePx = 960, AmplitudeUm = 0.1, WavelengthMm = wavelengthMm, AcrossDegrees = 0.0 };
        var amplitudePx = Math.Sqrt(2.0) * scene.ShiftRmsMm / scene.MmPerPx;
        var slope = SlopeOfSine() * amplitudePx / scene.WavelengthAlongPx;

        var results = Measure(scene);

        foreach (var shortestMm in new[] { 1.2, 2.4, 4.8, 9.6 })
        {
            var expected = slope * OctaveBands.Gain(shortestMm, scene.WavelengthAlongPx * scene.MmPerPx);
            var band = results[WavinessBands.MmMetric(WavinessBands.Edge, shortestMm)];
            Assert.Equal(expected, band.Value!.Value, Math.Max(0.08 * expected, 0.15 * band.Uncertainty!.Value));
            Assert.Equal("1", band.Unit);
        }

        var wavelength = results[EdgeWaviness.WavelengthMm];
        Assert.Equal(scene.WavelengthAlongPx * scene.MmPerPx, wavelength.Value!.Value, wavelength.Uncertainty!.Value);
    }

    // With the distances known: slope of the surface = shift / (2 D), so the sine has 2 pi A / (L root 2) across the edge.
    [Theory]
    [InlineData(double.PositiveInfinity)]
    [InlineData(600.0)]
    public void Measure_known_geometry_gives_the_slope_of_the_surface_in_mrad(double cameraDistanceMm)
    {
        var scene = new MirrorScene { SidePx = 960, AmplitudeUm = 0.1, WavelengthMm = 4.0, AcrossDegrees = 0.0 };
        var geometry = new MirrorGeometry(scene.ObjectDistanceMm, cameraDistanceMm);

        // The scene is one of a camera far away; a near one sees the same edge shift by C / (C + D) of it.
        var seen = double.IsInfinity(cameraDistanceMm) ? 1.0 : (cameraDistanceMm + scene.ObjectDistanceMm) / cameraDistanceMm;
        var rmsMrad = 2.0 * Math.PI * scene.AmplitudeUm / scene.WavelengthMm / Math.Sqrt(2.0) * Math.Cos(Math.PI / 4.0) * seen;

        var band = Measure(scene, geometry)["waviness_edge_4_8_to_9_6_mm"];

        Assert.Equal("mrad", band.Unit);
        var gain = OctaveBands.Gain(4.8, scene.WavelengthAlongPx * scene.MmPerPx);
        Assert.Equal(rmsMrad * gain, band.Value!.Value, 0.05 * band.Value.Value);
    }

    // surface.json: an object at 1 m shifts by 2 D times the slope.
    [Fact]
    public void MradPerMm_inverts_the_shift_of_the_reference()
    {
        foreach (var row in ReferenceData.Read("surface").GetProperty("reflection_geometry").GetProperty("rows").EnumerateArray())
        {
            var columns = row.Doubles();
            Assert.Equal(columns[2], columns[4] * new MirrorGeometry(1000.0, double.PositiveInfinity).MradPerMm, 0.001);
        }
    }

    [Fact]
    public void Measure_energy_grows_with_amplitude_and_is_nothing_without_waves()
    {
        var values = new[] { 0.0, 0.02, 0.05, 0.1, 0.2 }.Select(amplitude =>
            Measure(new MirrorScene { AmplitudeUm = amplitude, Noise = 0.01 })["waviness_edge_4_8_to_9_6_mm"]).ToList();

        Assert.InRange(values[0].Value!.Value, 0.0, values[0].Uncertainty!.Value);
        for (var i = 1; i < values.Count; i++)
        {
            Assert.True(values[i].Value > values[i - 1].Value, $"{values[i].Value} after {values[i - 1].Value}");
        }
    }

    // E-6 of the reference.
    [Fact]
    public void Measure_uniform_reflection_is_absent_whatever_the_waves()
    {
        var scene = new MirrorScene { AmplitudeUm = 5.0, DarkRadiance = 1.0, BrightRadiance = 1.0, Noise = 0.01 };

        var results = Measure(scene.Panel() with { MmPerPx = null }, null).Values.Concat(Measure(scene).Values).ToList();

        Assert.All(results, result => Assert.Null(result.Value));
        Assert.Equal(
            WavinessBands.ShortestPx.Length + WavinessBands.ShortestMm.Length + 3,
            results.Count(result => result.AbsentReason == WavinessBands.NothingToReflect));
    }

    [Fact]
    public void Measure_without_edge_scale_or_length_says_so()
    {
        var gradient = Measure(Pattern.Gray(Pattern.Draw(300, 300, (x, _) => 0.05 + (0.0002 * x)), 0.1), null);
        var small = Measure(new MirrorScene { SidePx = 200, MmPerPx = 0.2, AmplitudeUm = 1.0, WavelengthMm = 20.0 });
        var unscaled = Measure(new MirrorScene().Panel() with { MmPerPx = null }, null);

        Assert.Equal(EdgeWaviness.NoStraightEdge, gradient["waviness_edge_2_4_to_4_8_mm"].AbsentReason);
        Assert.Equal(EdgeWaviness.NoStraightEdge, gradient[EdgeWaviness.WavelengthMm].AbsentReason);
        Assert.Equal(WavinessBands.InMillimeters, gradient["waviness_edge_8_16_px"].AbsentReason);
        Assert.Contains("too short", small["waviness_edge_9_6_to_19_2_mm"].AbsentReason, StringComparison.Ordinal);
        Assert.Contains("does not resolve", small["waviness_edge_0_6_to_1_2_mm"].AbsentReason, StringComparison.Ordinal);
        Assert.Equal(AbsentReasons.NoScale, unscaled["waviness_edge_1_2_to_2_4_mm"].AbsentReason);
        Assert.Equal(AbsentReasons.NoScale, unscaled[EdgeWaviness.WavelengthMm].AbsentReason);
        Assert.Equal(EdgeWaviness.NoRulingWavelength, unscaled[EdgeWaviness.WavelengthPx].AbsentReason);
    }

    // Trap T10: the block grid of a JPEG must not pose as a band or as a wavelength of 8 px.
    [Theory]
    [InlineData(95, 0.0)]
    [InlineData(75, 8.0)]
    [InlineData(60, 30.0)]
    public void Measure_jpeg_of_a_flat_mirror_has_no_waves(int quality, double acrossDegrees)
    {
        var light = new MirrorScene { AcrossDegrees = acrossDegrees, Noise = 0.01, BrightRadiance = 2.0 }.LinearLight();

        var results = Measure(Pattern.Gray(JpegLikeCoder.Code(light, quality)), null);

        Assert.Null(results[EdgeWaviness.WavelengthPx].Value);
        foreach (var shortest in WavinessBands.ShortestPx)
        {
            var band = results[WavinessBands.PixelMetric(WavinessBands.Edge, shortest)];
            Assert.True(band.Value is null || band.Value <= band.Uncertainty, $"{band.Metric} {band.Value} {band.Uncertainty}");
        }
    }

    private static double SlopeOfSine() =>
        ReferenceData.Read("surface").GetProperty("sine_params").GetProperty("Wdq_over_A_per_lambda").GetDouble();

    private static Dictionary<string, Measurement> Measure(MirrorScene scene, MirrorGeometry? geometry = null) =>
        Measure(scene.Panel(), geometry);

    private static Dictionary<string, Measurement> Measure(PanelPlanes panel, MirrorGeometry? geometry)
    {
        var scale = panel.MmPerPx is { } mmPerPx ? new LengthScale(mmPerPx, 0.0) : (LengthScale?)null;
        var (contrast, results) = (new List<Measurement>(), new List<Measurement>());
        var reflects = Waviness.Measure(panel, scale, null, contrast, CancellationToken.None);
        EdgeWaviness.Measure(ReflectedEdgeTests.Find(panel), reflects, scale, null, geometry, results);
        return results.ToDictionary(measurement => measurement.Metric);
    }
}
