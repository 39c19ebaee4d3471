using CoatScan.Findings;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Gloss;

/// <summary>How soft the reflection of a light source is, [0, 1]: 0 as sharp as on a mirror, 1 a blob without an edge.</summary>
/// <remarks>
/// <para>A relative index of the photo, never gloss units: the size and distance of the light are in it. Compare photos taken
/// alike.</para>
/// <para>Measured on the panel reduced to 512 px on the long side, see <see cref="Highlight"/>.</para>
/// <para>Absent: no highlight; a photo whose own blur would give more than a quarter of the index; a soft highlight in a photo
/// without any edge that could tell its focus.</para>
/// <para>Source: that a photo supports only relative gloss, by the width of a highlight's edge, is the project's own rule; see
/// <see cref="Highlight"/> for the closed forms.</para>
/// </remarks>
internal static class GlossLoss
{
    internal const string Metric = "gloss_loss_index";
    internal const string NoHighlight = "there is no highlight of a light source with a visible edge";
    internal const string FocusUnknown = "no sharp detail shows that the photo is in focus";

    private const double LargestBlurShare = 0.25;
    private const double SharpEnough = 0.3;

    internal static Measurement Measure(HighlightReading? found, double planesPxPerPx, SharpnessReading? sharpness)
    {
        if (found is not { } highlight)
        {
            return Measurement.Absent(Metric, "1", NoHighlight);
        }

        if (sharpness is not { } reading)
        {
            return highlight.Softness <= SharpEnough
                ? Measurement.Of(Metric, highlight.Softness, "1")
                : Measurement.Absent(Metric, "1", FocusUnknown);
        }

        var blurPx = reading.EdgeBlurPx / planesPxPerPx;
        var share = 1.349 * blurPx / Math.Max(highlight.HalfWidthPx, 1.0) / Highlight.BlobRatio;
        return share > LargestBlurShare
            ? Measurement.Absent(Metric, "1", AbsentReasons.Blurred)
            : Measurement.Of(Metric, highlight.Softness, "1");
    }
}
