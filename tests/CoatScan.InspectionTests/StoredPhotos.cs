using CoatScan.DemoPanels;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics;

namespace CoatScan.InspectionTests;

/// <summary>One rendered photo, stored, turned and resized in other ways, and which of its measurements agree within their half widths.</summary>
internal static class StoredPhotos
{
    private const double MmPerPx = 0.2;

    private static readonly PhotoNormalizer Normalizer = new(new GuardedPhotoDecoder(new ImagingOptions()), new ImagingOptions());

    /// <summary>Compares every measurement of one rendered panel with those of the same photo stored, turned or resized.</summary>
    internal static IEnumerable<(string Metric, string Variant, bool Agrees)> Compare(string visualClass, ulong seed)
    {
        var panel = DemoPanelRenderer.Render(visualClass, seed, new DemoPanelOptions { WidthPx = 800, HeightPx = 600, MmPerPx = MmPerPx, View = PanelView.CloseUp });
        var original = Measure(panel.Rgb, panel.WidthPx, panel.HeightPx, 98, MmPerPx);
        foreach (var (name, rgb, width, height, quality, scale) in Variants(panel))
        {
            var other = Measure(rgb, width, height, quality, scale);
            foreach (var (first, second) in original.Zip(other))
            {
                if (first.Value is { } a && second.Value is { } b && IsComparable(first))
                {
                    var joint = Math.Sqrt(Square(first.Uncertainty!.Value) + Square(second.Uncertainty!.Value));
                    yield return (first.Metric, name, Math.Abs(a - b) <= joint + 1e-9);
                }
            }
        }
    }

    // Lengths in pixels and what is counted per pixel change with the size by definition.
    private static bool IsComparable(Measurement one) =>
        !one.Metric.Contains("px", StringComparison.Ordinal) && !one.Unit.Contains("px", StringComparison.Ordinal)
        && one.Metric is not ("sharpness" or "line_density" or "line_junction_density" or "line_curvature");

    private static IEnumerable<(string, byte[], int, int, int, double)> Variants(DemoPanel panel)
    {
        var (width, height) = (panel.WidthPx, panel.HeightPx);
        foreach (var quality in new[] { 95, 80, 60 })
        {
            yield return ($"q{quality}", panel.Rgb, width, height, quality, MmPerPx);
        }

        yield return ("turned", Map(panel.Rgb, width, height, height, width, (x, y) => (y, height - 1 - x)), height, width, 92, MmPerPx);
        yield return ("mirrored", Map(panel.Rgb, width, height, width, height, (x, y) => (width - 1 - x, y)), width, height, 92, MmPerPx);
        yield return ("half", Halve(panel.Rgb, width, height), width / 2, height / 2, 92, 2 * MmPerPx);
        yield return ("double", Double(panel.Rgb, width, height), 2 * width, 2 * height, 92, MmPerPx / 2);
    }

    private static IReadOnlyList<Measurement> Measure(byte[] rgb, int width, int height, int quality, double mmPerPx)
    {
        using var photo = Normalizer.Normalize(PhotoEncoder.EncodeJpeg(rgb, width, height, quality), mmPerPx, CancellationToken.None);
        return PanelMetrics.Measure(photo.Planes, photo.Capture, CancellationToken.None).Measurements;
    }

    private static byte[] Map(byte[] rgb, int width, int height, int newWidth, int newHeight, Func<int, int, (int X, int Y)> from)
    {
        var target = new byte[rgb.Length];
        for (var y = 0; y < newHeight; y++)
        {
            for (var x = 0; x < newWidth; x++)
            {
                var (sx, sy) = from(x, y);
                rgb.AsSpan(((sy * width) + sx) * 3, 3).CopyTo(target.AsSpan(((y * newWidth) + x) * 3, 3));
            }
        }

        return target;
    }

    private static byte[] Halve(byte[] rgb, int width, int height)
    {
        var target = new byte[rgb.Length / 4];
        for (var y = 0; y < height / 2; y++)
        {
            for (var i = 0; i < width / 2 * 3; i++)
            {
                var (x, channel) = Math.DivRem(i, 3);
                var at = (((2 * y * width) + (2 * x)) * 3) + channel;
                target[(y * (width / 2) * 3) + i] = (byte)((rgb[at] + rgb[at + 3] + rgb[at + (3 * width)] + rgb[at + (3 * width) + 3] + 2) / 4);
            }
        }

        return target;
    }

    private static byte[] Double(byte[] rgb, int width, int height)
    {
        var target = new byte[rgb.Length * 4];
        for (var y = 0; y < 2 * height; y++)
        {
            for (var i = 0; i < 2 * width * 3; i++)
            {
                var (x, channel) = Math.DivRem(i, 3);
                var (sx, sy) = ((x - 0.5) / 2, (y - 0.5) / 2);
                var (x0, y0) = ((int)Math.Clamp(sx, 0, width - 1), (int)Math.Clamp(sy, 0, height - 1));
                var (x1, y1) = (Math.Min(x0 + 1, width - 1), Math.Min(y0 + 1, height - 1));
                var (u, v) = (Math.Clamp(sx - x0, 0, 1), Math.Clamp(sy - y0, 0, 1));
                double At(int px, int py) => rgb[(((py * width) + px) * 3) + channel];
                var value = ((1 - v) * (((1 - u) * At(x0, y0)) + (u * At(x1, y0)))) + (v * (((1 - u) * At(x0, y1)) + (u * At(x1, y1))));
                target[(y * 2 * width * 3) + i] = (byte)Math.Round(value);
            }
        }

        return target;
    }

    private static double Square(double value) => value * value;
}
