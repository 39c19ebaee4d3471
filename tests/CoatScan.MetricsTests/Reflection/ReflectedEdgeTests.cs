using CoatScan.Metrics;
using CoatScan.Metrics.Reflection;
using CsCheck;

namespace CoatScan.MetricsTests.Reflection;

public sealed class ReflectedEdgeTests
{
    // E-3 of the reference: edge rms shift = root 2 D 2 pi A / L (law of reflection), wavelength within 5 %.
    [Theory]
    [InlineData(0.5, 4.0, 300.0, 8.0)]
    [InlineData(1.0, 6.0, 300.0, 90.0)]
    [InlineData(0.3, 2.0, 200.0, 35.0)]
    [InlineData(0.2, 2.5, 300.0, -60.0)]
    public void Find_wavy_mirror_has_the_closed_form_shift_and_wavelength(
        double amplitudeUm, double wavelengthMm, double distanceMm, double acrossDegrees)
    {
        var scene = new MirrorScene
        {
            AmplitudeUm = amplitudeUm,
            WavelengthMm = wavelengthMm,
            ObjectDistanceMm = distanceMm,
            AcrossDegrees = acrossDegrees,
            WaveDegrees = acrossDegrees + 45.0,
        };

        var edge = Assert.Single(Find(scene));

        Assert.Equal(scene.ShiftRmsMm, scene.MmPerPx * RmsPx(edge), 0.04 * scene.ShiftRmsMm);
        Assert.Equal(
            scene.WavelengthAlongPx, TraceSpectrum.Dominant(edge)!.Value.WavelengthPx, 0.05 * scene.WavelengthAlongPx);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(3.0)]
    [InlineData(20.0)]
    [InlineData(45.0)]
    [InlineData(85.0)]
    public void Find_flat_mirror_keeps_the_edge_straight_to_the_stated_interpolation(double acrossDegrees)
    {
        var edge = Assert.Single(Find(new MirrorScene { AcrossDegrees = acrossDegrees, BlurPx = 0.6 }));

        Assert.InRange(RmsPx(edge), 0.0, TraceBands.InterpolationPx);
        Assert.Null(TraceSpectrum.Dominant(edge));
    }

    // Along the course the light is half way between the two sides.
    [Theory]
    [InlineData(0.0)]
    [InlineData(20.0)]
    [InlineData(85.0)]
    public void Find_course_runs_along_the_edge_from_end_to_end(double acrossDegrees)
    {
        var scene = new MirrorScene { AcrossDegrees = acrossDegrees, BlurPx = 1.5 };
        var light = scene.LinearLight();

        var course = Assert.Single(Find(scene)).Course;

        Assert.Equal(25, course.Count);
        var (first, last) = (course[0], course[^1]);
        Assert.InRange(Math.Sqrt(Math.Pow(last.X - first.X, 2.0) + Math.Pow(last.Y - first.Y, 2.0)), 0.85 * scene.SidePx, 1.5 * scene.SidePx);
        var (alongX, alongY) = (last.X - first.X, last.Y - first.Y);
        var length = Math.Sqrt((alongX * alongX) + (alongY * alongY));
        Assert.All(course.Skip(1).SkipLast(1), point =>
        {
            var (x, y) = (-alongY / length * 4.0, alongX / length * 4.0);
            Assert.True(
                At(point.X + x, point.Y + y) > 1.5 * At(point.X - x, point.Y - y) || At(point.X - x, point.Y - y) > 1.5 * At(point.X + x, point.Y + y),
                $"The light is the same on both sides of {point}.");
        });

        float At(double x, double y) => light.Values[((int)Math.Round(y) * light.Width) + (int)Math.Round(x)];
    }

    // Rows of an edge along an axis are independent; an oblique one shares pixels between them and so is cautious.
    [Theory]
    [InlineData(0.0, 0.8)]
    [InlineData(8.0, 0.55)]
    public void Find_traced_noise_is_what_the_residuals_scatter(double acrossDegrees, double least)
    {
        var edge = Assert.Single(Find(new MirrorScene { Noise = 0.03, BlurPx = 1.5, AcrossDegrees = acrossDegrees }));

        Assert.InRange(edge.NoisePx / RmsPx(edge), least, 1.1);
    }

    // 10 % to 90 % rise of a Gaussian edge is 2.5631 s (quality.json), and so is the blur that is told from it.
    [Theory]
    [InlineData(1.0, 20.0)]
    [InlineData(2.0, 8.0)]
    [InlineData(2.0, 0.0)]
    [InlineData(3.0, 45.0)]
    public void Find_blurred_edge_has_its_blur(double blurPx, double acrossDegrees)
    {
        var edge = Assert.Single(Find(new MirrorScene { BlurPx = blurPx, AcrossDegrees = acrossDegrees }));

        Assert.All(edge.BlurPx, blur => Assert.Equal(blurPx, blur, 0.06 * blurPx));
    }

    // quality.json: edge behind a Gaussian of 2 px; rise and modulation of the closed form.
    [Fact]
    public void Find_edge_of_the_reference_has_its_rise_and_modulation()
    {
        var reference = ReferenceData.Read("quality").GetProperty("mtf_gauss_edge");
        var blur = Assert.Single(Find(new MirrorScene { BlurPx = 2.0, AcrossDegrees = 30.0 })).BlurPx.Average();

        Assert.Equal(
            reference.GetProperty("rise_10_90_theory_px").GetDouble(), EdgeProfile.RisePerSigma * blur, 0.1);
        var frequencies = reference.GetProperty("freq_cyc_px").Doubles();
        var modulations = reference.GetProperty("theory").Doubles();
        for (var i = 0; i < frequencies.Length; i++)
        {
            Assert.Equal(modulations[i], Math.Exp(-2.0 * Math.Pow(Math.PI * blur * frequencies[i], 2.0)), 0.02);
        }
    }

    [Fact]
    public void Find_waviness_does_not_widen_the_edge()
    {
        var scene = new MirrorScene { AmplitudeUm = 0.1, BlurPx = 2.0 };

        var edge = Assert.Single(Find(scene));

        Assert.True(RmsPx(edge) > 0.3);
        Assert.All(edge.BlurPx, blur => Assert.Equal(2.0, blur, 0.2));
    }

    [Fact]
    public void Find_mirrored_panel_has_the_same_edge() => Gen.Select(Gen.Double[-80.0, 80.0], Gen.Double[0.2, 0.6]).Sample(
        (degrees, amplitude) =>
        {
            var scene = new MirrorScene { AcrossDegrees = degrees, WaveDegrees = degrees + 45.0, AmplitudeUm = amplitude };
            var panel = (scene with { SidePx = 320 }).Panel();
            var direct = Assert.Single(Find(panel));
            var mirrored = Assert.Single(Find(Pattern.MirrorX(panel)));

            Assert.Equal(RmsPx(direct), RmsPx(mirrored), 0.05 * RmsPx(direct));
        },
        iter: 6);

    [Fact]
    public void Find_canceled_token_stops() => Assert.Throws<OperationCanceledException>(
        () => ReflectedEdgeFinder.Find(new MirrorScene().Panel(), new CancellationToken(canceled: true)));

    internal static IReadOnlyList<ReflectedEdge> Find(PanelPlanes panel) =>
        ReflectedEdgeFinder.Find(panel, CancellationToken.None);

    private static IReadOnlyList<ReflectedEdge> Find(MirrorScene scene) => Find(scene.Panel());

    private static double RmsPx(ReflectedEdge edge) => Math.Sqrt(edge.ResidualsPx.Average(value => value * value));
}
