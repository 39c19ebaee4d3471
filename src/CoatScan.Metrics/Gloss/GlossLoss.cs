using CoatScan.Findings;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Gloss;

/// <summary>How soft the reflection of a light source is, [0, 1]: 0 as sharp as on a mirror, 1 a blob without an
/// edge.</summary>
/// <remarks>
/// <para><c>gloss_loss_highlight</c>, unit 1; up to metric set 1 it was <c>gloss_loss_index</c>.</para>
/// <para>A relative index of the photo, never gloss units: the size and distance of the light are in it. Compare photos taken
/// alike.</para>
/// <para>Measured on the panel reduced to 512 px on the long side, see <see cref="Highlight"/>.</para>
/// <para>Absent: no highlight; a photo whose own blur would give more than a quarter of the index; a soft highlight in a
/// photo without any edge that could tell its focus.</para>
/// <para>Uncertainty, 95 %: counting of the pixels along the two outlines (each errs like a uniform half pixel, variance
/// 1/12); 5 % for the peak, a percentile; the share that the photo's blur may have, all of it where its focus is
/// unknown.</para>
/// <para>Source: that a photo supports only relative gloss, by the width of a highlight's edge, is the project's own rule;
/// see <see cref="Highlight"/> for the closed forms.</para>
/// </remarks>
internal static class GlossLoss
{
    internal const string Metric = "gloss_loss_highlight";
    internal const string NoHighlight = "there is no highlight of a light source with a visible edge";
    internal const string FocusUnknown = "no sharp detail shows that the photo is in focus";

    private const double LargestBlurShare = 0.25;
    private const double SharpEnough = 0.3;
    private const double PeakErrorShare = 0.05;

    internal static Measurement Measure(HighlightReading? found, double planesPxPerPx, SharpnessReading? sharpness)
    {
        if (found is not { } highlight)
        {
            return Measurement.Absent(Metric, "1", NoHighlight);
        }

        if (sharpness is not { } reading)
        {
            return highlight.Softness <= SharpEnough
                ? ToMeasurement(highlight, highlight.Softness)
                : Measurement.Absent(Metric, "1", FocusUnknown);
        }

        var blurPx = reading.EdgeBlurPx / planesPxPerPx;
        var share = 1.349 * blurPx / Math.Max(highlight.HalfWidthPx, 1.0) / Highlight.BlobRatio;
        return share > LargestBlurShare
            ? Measurement.Absent(Metric, "1", AbsentReasons.Blurred)
            : ToMeasurement(highlight, Math.Min(share, highlight.Softness));
    }

    private static Measurement ToMeasurement(HighlightReading highlight, double blurShare)
    {
        // Outlines of a disk: 2 pi r pixels each; the index is the difference of two areas over twice a third.
        var radius = Math.Max(highlight.HalfWidthPx, 1.0);
        var counting = 1.96 * Math.Sqrt(2.0 * 2.0 * Math.PI * radius / 12.0)
            / (2.0 * Math.PI * radius * radius * Highlight.BlobRatio);
        var peak = PeakErrorShare * highlight.Softness;
        return Measurement.Of(
            Metric,
            highlight.Softness,
            "1",
            Math.Sqrt((counting * counting) + (peak * peak) + (blurShare * blurShare)));
    }
}
