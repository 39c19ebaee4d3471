using CoatScan.Findings;
using CoatScan.Metrics.Gloss;
using CoatScan.Metrics.Lines;
using CoatScan.Metrics.Marks;
using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Reflection;
using CoatScan.Metrics.Texture;
using CoatScan.Metrics.Uncertainty;
using CoatScan.Metrics.Zones;

namespace CoatScan.Metrics;

/// <summary>Measures a panel: every metric of the set, in one call.</summary>
public static class PanelMetrics
{
    /// <summary>Measures one photo's panel; equal planes give equal measurements.</summary>
    /// <param name="panel">The panel, planes of one size; unchanged.</param>
    /// <param name="cancellationToken">Looked at between the metrics.</param>
    /// <exception cref="ArgumentException">The planes differ in size, or the scale is not above 0.</exception>
    /// <exception cref="OperationCanceledException">The token was canceled.</exception>
    public static PanelMeasurements Measure(PanelPlanes panel, CancellationToken cancellationToken)
    {
        Check(panel);
        cancellationToken.ThrowIfCancellationRequested();
        return MeasureChecked(panel, CaptureReading.Of(panel), cancellationToken);
    }

    /// <summary>The same, where it was already measured how the photo was taken.</summary>
    /// <param name="panel">The panel, planes of one size; unchanged.</param>
    /// <param name="capture">What <see cref="CaptureReading.Of"/> gives for this panel.</param>
    /// <param name="cancellationToken">Looked at between the metrics.</param>
    /// <exception cref="ArgumentException">The planes differ in size, or the scale is not above 0.</exception>
    /// <exception cref="OperationCanceledException">The token was canceled.</exception>
    public static PanelMeasurements Measure(
        PanelPlanes panel, CaptureReading capture, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(capture);
        Check(panel);
        return MeasureChecked(panel, capture, cancellationToken);
    }

    private static PanelMeasurements MeasureChecked(
        PanelPlanes panel, CaptureReading capture, CancellationToken cancellationToken)
    {
        var (sharpness, exposure) = capture;
        var measurements = new List<Measurement>();
        cancellationToken.ThrowIfCancellationRequested();
        PanelAppearance.Measure(panel, capture, measurements);
        cancellationToken.ThrowIfCancellationRequested();
        var edges = ReflectedEdgeFinder.Find(panel, cancellationToken);
        cancellationToken.ThrowIfCancellationRequested();
        var scale = panel.MeanScale;
        var reflects = Waviness.Measure(panel, scale, sharpness?.EdgeBlurPx, measurements, cancellationToken);
        EdgeWaviness.Measure(edges, reflects, scale, sharpness?.EdgeBlurPx, panel.Mirror, measurements);
        cancellationToken.ThrowIfCancellationRequested();
        var spots = SpotMetrics.Measure(panel, exposure.MeanLightness, measurements);
        cancellationToken.ThrowIfCancellationRequested();
        LineMetrics.Measure(panel, sharpness, measurements);
        cancellationToken.ThrowIfCancellationRequested();
        SizeDoubt.Widen(panel, exposure.MeanLightness, sharpness, measurements);
        SpotMetrics.Withhold(measurements);
        cancellationToken.ThrowIfCancellationRequested();
        using var scope = new PlaneScope();
        AreaMetrics.Measure(panel, exposure.MeanLightness, scope, measurements);
        cancellationToken.ThrowIfCancellationRequested();
        var coarse = new CoarsePanel(panel, scope);
        measurements.Add(ChromaLoss.Measure(coarse.Colors));
        measurements.Add(TwoTone.Measure(coarse.Colors));
        measurements.Add(GlossLoss.Measure(coarse.Highlight, coarse.PlanesPxPerPx, sharpness));
        EdgeGlossLoss.Measure(edges, sharpness, measurements);
        cancellationToken.ThrowIfCancellationRequested();
        return new() { Measurements = measurements, Spots = spots, ReflectedEdges = [.. edges.Select(edge => edge.Course)] };
    }

    private static void Check(PanelPlanes panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        foreach (var plane in (ReadOnlySpan<Plane>)[panel.Red, panel.Green, panel.Blue, panel.AStar, panel.BStar])
        {
            if (plane.Width != panel.Width || plane.Height != panel.Height)
            {
                throw new ArgumentException("The planes of the panel differ in size.", nameof(panel));
            }
        }

        if (panel.Clipped.Length != panel.Lightness.Values.Length)
        {
            throw new ArgumentException("There is not one clipped flag a pixel.", nameof(panel));
        }

        if (panel.MmPerPx is { } scale && !(scale > 0.0 && double.IsFinite(scale)))
        {
            throw new ArgumentException("The scale must be above 0 mm per pixel.", nameof(panel));
        }

        if (!(panel.OriginalPxPerPx >= 1.0 && double.IsFinite(panel.OriginalPxPerPx)))
        {
            throw new ArgumentException("A plane has no more pixels than its photo.", nameof(panel));
        }
    }
}
