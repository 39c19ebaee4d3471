using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;
using CoatScan.MetricsTests;
using CoatScan.MetricsTests.Lines;

namespace CoatScan.InspectionTests;

/// <summary>E-8 of the science sheet for lines: the same cracks, stored, turned and resized in other ways.</summary>
public sealed class LinePhotoTests
{
    private const double MmPerPx = 0.1;

    // A share of what DEVELOPERS.md reports: at least 19 of 20 values stay within the uncertainty stated with them.
    [Theory]
    [InlineData("jpeg 95", 1.0, false)]
    [InlineData("jpeg 75", 1.0, false)]
    [InlineData("jpeg 60", 1.0, false)]
    [InlineData("turned", 1.0, true)]
    [InlineData("reduced", 0.75, false)]
    public void Measure_stored_in_another_way_stays_within_the_uncertainty(string way, double size, bool isTurned)
    {
        var (inside, count) = (0, 0);
        foreach (var seed in (int[])[0, 1, 4, 7])
        {
            var scene = CrackScene.Of(seed).Lightness;
            var other = isTurned ? Pattern.Draw(scene.Height, scene.Width, (x, y) => scene[y, x]) : Reduced(scene, size);
            var quality = way.StartsWith("jpeg", StringComparison.Ordinal)
                ? int.Parse(way[5..], System.Globalization.CultureInfo.InvariantCulture)
                : 0;
            var before = Lines(scene, 0, MmPerPx);
            foreach (var after in Lines(other, quality, MmPerPx / size).Where(one => size == 1.0 || one.Unit is "1" or "mm" or "/mm"))
            {
                var value = before.Single(one => one.Metric == after.Metric).Value;
                if (value is not null && after.Value is not null)
                {
                    count++;
                    inside += Math.Abs(after.Value.Value - value.Value) <= after.Uncertainty ? 1 : 0;
                }
            }
        }

        Assert.InRange(count, 40, 100);
        Assert.InRange(inside, 0.95 * count, count);
    }

    private static Plane Reduced(Plane lightness, double size) => size == 1.0
        ? lightness
        : AreaReduction.Apply(lightness, (int)(size * lightness.Width), (int)(size * lightness.Height));

    private static List<Measurement> Lines(Plane lightness, int quality, double mmPerPx)
    {
        var rgb = new byte[3 * lightness.Values.Length];
        for (var i = 0; i < rgb.Length; i++)
        {
            rgb[i] = SrgbTransfer.ToByte(Pattern.Linear(lightness.Values[i / 3]));
        }

        var options = new ImagingOptions();
        var bytes = quality == 0
            ? PhotoEncoder.EncodePng(rgb, lightness.Width, lightness.Height)
            : PhotoEncoder.EncodeJpeg(rgb, lightness.Width, lightness.Height, quality);
        using var photo = new PhotoNormalizer(new GuardedPhotoDecoder(options), options)
            .Normalize(bytes, mmPerPx, TestContext.Current.CancellationToken);
        return [.. PanelMetrics.Measure(photo.Planes, photo.Capture, TestContext.Current.CancellationToken).Measurements
            .Where(one => one.Metric.StartsWith("line_", StringComparison.Ordinal))];
    }
}
