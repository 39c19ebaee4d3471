using CoatScan.DemoPanels;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics;
using CoatScan.Metrics.Reflection;

namespace CoatScan.InspectionTests;

/// <summary>E-3 of the science sheet with known distances: from the bytes of a photo to the slope of the surface in mrad.</summary>
public sealed class MirrorPhotoTests
{
    // z = A sin(2 pi s / L), 45 degrees across the edge: its rms slope across the edge is 2 pi A / (L root 2) cos 45, whatever the
    // distances. The band passes the wavelength along the edge, L / sin 45, by its gain.
    [Theory]
    [InlineData(300.0, 1e5)]
    [InlineData(300.0, 500.0)]
    [InlineData(600.0, 400.0)]
    public void Measure_mirrored_edge_gives_the_slope_of_the_surface_in_mrad(double reflectedMm, double cameraMm)
    {
        var panel = Wavy(reflectedMm, cameraMm);

        var band = Measure(panel, 0.1, new MirrorGeometry(reflectedMm, cameraMm))["waviness_edge_4_8_to_9_6_mm"];

        var alongMm = panel.WavelengthMm / Math.Sin(Math.PI / 4);
        var rmsMrad = 2 * Math.PI * panel.AmplitudeUm / panel.WavelengthMm / Math.Sqrt(2) * Math.Cos(Math.PI / 4);
        var expected = rmsMrad * Gain(4.8, alongMm);
        Assert.Equal("mrad", band.Unit);
        Assert.Equal(expected, band.Value!.Value, 0.06 * expected);
        Assert.Equal(expected, band.Value.Value, band.Uncertainty!.Value);
        Assert.InRange(band.Uncertainty.Value, 0.05 * band.Value.Value, band.Value.Value);
    }

    [Fact]
    public void Measure_mirrored_edge_without_distances_or_scale_is_relative()
    {
        var panel = Wavy(300.0, 500.0);

        Assert.Equal("1", Measure(panel, 0.1, null)["waviness_edge_4_8_to_9_6_mm"].Unit);
        var unscaled = Measure(panel, null, new MirrorGeometry(300.0, 500.0));
        Assert.Null(unscaled["waviness_edge_4_8_to_9_6_mm"].Value);
        Assert.Equal("1", unscaled["waviness_edge_32_64_px"].Unit);
        Assert.NotNull(unscaled["waviness_edge_32_64_px"].Value);
    }

    private static ReferencePanel Wavy(double reflectedMm, double cameraMm) => new()
    {
        WidthPx = 960,
        HeightPx = 960,
        MmPerPx = 0.1,
        AmplitudeUm = 0.1,
        WavelengthMm = 4.0,
        WaveAngle = Math.PI / 4,
        EdgeDistanceMm = reflectedMm,
        CameraDistanceMm = cameraMm,
        EdgeSoftnessRad = 0.001,
    };

    // Difference of two Gaussian low-pass filters of ISO 16610-21 an octave apart: 2^-(Lc/L)^2 each.
    private static double Gain(double shortestMm, double wavelengthMm) =>
        Math.Pow(2, -Math.Pow(shortestMm / wavelengthMm, 2)) - Math.Pow(2, -Math.Pow(2 * shortestMm / wavelengthMm, 2));

    private static Dictionary<string, Measurement> Measure(ReferencePanel panel, double? mmPerPx, MirrorGeometry? mirror)
    {
        var shown = panel.Render();
        var options = new ImagingOptions();
        using var photo = new PhotoNormalizer(new GuardedPhotoDecoder(options), options).Normalize(
            PhotoEncoder.EncodeJpeg(shown.Rgb, shown.WidthPx, shown.HeightPx, 95), mmPerPx, TestContext.Current.CancellationToken);
        return PanelMetrics.Measure(photo.Planes with { Mirror = mirror }, photo.Capture, TestContext.Current.CancellationToken)
            .Measurements.ToDictionary(one => one.Metric);
    }
}
