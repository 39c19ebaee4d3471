using CoatScan.Findings;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Lines;
using CoatScan.Metrics.Marks;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Uncertainty;

/// <summary>Widens what is counted and traced by what a photo of half the width and height would have given instead.</summary>
/// <remarks>
/// How many spots and lines a panel has depends on how finely it is looked at: fine ones go under, close ones flow together. How
/// much that matters shows in the photo itself. It is measured a second time at half of its size, and the difference enters the half
/// width as one more cause, so that two photos of one panel whose sizes differ by an octave agree within what they state. Values in
/// pixels and per pixel change with the size by definition and stay as they are. What half the size cannot tell adds nothing.
/// Cost: a quarter of that of spots; of lines too, but only where the smaller photo is not reduced to the same size before lines are sought. Source: our own.
/// </remarks>
internal static class SizeDoubt
{
    /// <summary>Widens the measurements of spots and lines in a list.</summary>
    internal static void Widen(
        PanelPlanes panel, double meanLightness, SharpnessReading? sharpness, List<Measurement> measurements)
    {
        var (width, height) = (panel.Width / 2, panel.Height / 2);
        if (Math.Min(width, height) < 1)
        {
            return;
        }

        using var scope = new PlaneScope();
        var lightness = scope.Rent(width, height);
        var small = panel with
        {
            Lightness = lightness,
            Clipped = Halve(panel, lightness),
            MmPerPx = 2.0 * panel.MmPerPx,
            Scale = panel.Scale?.Enlarged(0.5),
            OriginalPxPerPx = 2.0 * panel.OriginalPxPerPx,
        };
        var others = new List<Measurement>();
        SpotMetrics.Measure(small, meanLightness, others);
        if (Math.Max(width, height) < LineMetrics.LongSidePx)
        {
            LineMetrics.Measure(
                small, sharpness is { } sharp ? sharp with { EdgeBlurPx = sharp.EdgeBlurPx / 2.0 } : null, others);
        }

        Widen(measurements, others);
    }

    private static void Widen(List<Measurement> measurements, List<Measurement> others)
    {
        var byMetric = others.ToDictionary(other => other.Metric, StringComparer.Ordinal);
        for (var i = 0; i < measurements.Count; i++)
        {
            var one = measurements[i];
            if (one is { Value: { } value, Uncertainty: { } halfWidth }
                && !one.Metric.Contains("px", StringComparison.Ordinal) && !one.Unit.Contains("px", StringComparison.Ordinal)
                && byMetric.TryGetValue(one.Metric, out var other) && other.Value is { } atHalf)
            {
                measurements[i] = Measurement.Of(one.Metric, value, one.Unit, HalfWidth.Join(halfWidth, atHalf - value));
            }
        }
    }

    // A pixel is clipped where all four are: the mean of others is not white.
    private static bool[] Halve(PanelPlanes panel, Plane target)
    {
        PixelHalving.Apply(panel.Lightness, target);
        var clipped = new bool[target.Values.Length];
        for (var y = 0; y < target.Height; y++)
        {
            var upper = panel.Clipped.AsSpan(2 * y * panel.Width, panel.Width);
            if (!upper.Contains(true))
            {
                continue;
            }

            var lower = panel.Clipped.AsSpan(((2 * y) + 1) * panel.Width, panel.Width);
            var row = clipped.AsSpan(y * target.Width, target.Width);
            for (var x = 0; x < row.Length; x++)
            {
                row[x] = upper[2 * x] && upper[(2 * x) + 1] && lower[2 * x] && lower[(2 * x) + 1];
            }
        }

        return clipped;
    }
}
