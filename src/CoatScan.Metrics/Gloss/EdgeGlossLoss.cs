using CoatScan.Findings;
using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Reflection;

namespace CoatScan.Metrics.Gloss;

/// <summary>Gloss loss from the spread of reflected edges: 1 - reference spread / spread, [0, 1). Relative, never gloss
/// units.</summary>
/// <remarks>
/// <para><c>gloss_loss_reflected_edge</c>: median blur of the stretches of all reflected edges against the sharpest edges of
/// the photo, which lie in the panel: 0 as sharp as those, 0.5 twice as wide. The reflected object's own softness and its
/// distance from the plane of focus are in it: compare photos taken alike.</para>
/// <para><c>gloss_loss_zones</c>: median blur of the softest edge against that of the sharpest one on the same panel, the
/// sound zone. Softness of focus is the same for objects at like distances; a nearer or harder object is not a glossier zone,
/// which a photo cannot tell.</para>
/// <para>Spread: standard deviation of the Gaussian with the 10 % to 90 % rise; the waviness is not in it, see
/// <see cref="EdgeProfile"/>.</para>
/// <para>Absent: no reflected edge whose bright side is free of clipping; a photo without a sharp edge (blur above 1.5 px: it
/// may be the photo that is soft); for zones fewer than two edges.</para>
/// <para>Uncertainty, 95 %: scatter of the stretches, or a quarter pixel where there are fewer than three; an eighth of a
/// pixel each for spread and reference, and 12 % of the photo's: how well both give back known blurs, by their tests; of the
/// photo's also what its sampling may add, which is all of it at half a pixel.</para>
/// <para>Sources: edge spread of ISO 12233; that roughness takes the sharpness of a mirror image first: Bennett and Porteus,
/// JOSA 51, 123, 1961, and Walter et al., EGSR 2007 (both from memory). That a photo supports only relative gloss is the
/// project's own rule.</para>
/// </remarks>
internal static class EdgeGlossLoss
{
    internal const string Metric = "gloss_loss_reflected_edge";
    internal const string ZonesMetric = "gloss_loss_zones";
    internal const string NoEdge = "the panel reflects no long straight edge free of clipping";
    internal const string OneEdge = "the panel reflects only one edge: there is no sound zone to compare with";

    // Blur up to which a photo counts as sharp, so that its sharpest edges show what a perfect mirror would.
    private const double SharpPhotoPx = 1.5;

    // A step between two pixels, the sharpest that a photo holds: s of a pixel's box and a sharp lens.
    private const double LeastSpreadPx = 0.5;
    private const double ReadingErrorPx = 0.125;

    // PhotoSharpness gives known blurs back within this share (its tests).
    private const double PhotoErrorShare = 0.12;
    private const double FewStretchesErrorPx = 0.25;

    internal static void Measure(
        IReadOnlyList<ReflectedEdge> edges, SharpnessReading? sharpness, List<Measurement> measurements)
    {
        var usable = edges.Where(edge => !edge.IsClipped && edge.BlurPx.Count > 0).ToList();
        var stretches = usable.SelectMany(edge => edge.BlurPx).ToList();
        measurements.Add(
            stretches.Count == 0 ? Measurement.Absent(Metric, "1", NoEdge)
            : sharpness is not { } photo ? Measurement.Absent(Metric, "1", GlossLoss.FocusUnknown)
            : photo.EdgeBlurPx > SharpPhotoPx ? Measurement.Absent(Metric, "1", AbsentReasons.Blurred)
            : Against(Metric, Spread.Of(stretches), OfPhoto(photo)));

        var zones = usable.ConvertAll(edge => Spread.Of(edge.BlurPx));
        measurements.Add(
            zones.Count == 0 ? Measurement.Absent(ZonesMetric, "1", NoEdge)
            : zones.Count == 1 ? Measurement.Absent(ZonesMetric, "1", OneEdge)
            : Against(ZonesMetric, zones.MaxBy(zone => zone.Px), zones.MinBy(zone => zone.Px)));
    }

    // A step between two pixels reads as half a pixel of blur, so up to that much may be the sampling's.
    private static Spread OfPhoto(SharpnessReading photo)
    {
        var blur = Math.Max(LeastSpreadPx, photo.EdgeBlurPx);
        var sampling = blur - Math.Sqrt((blur * blur) - (LeastSpreadPx * LeastSpreadPx));
        var error = PhotoErrorShare * blur;
        return new(blur, Math.Sqrt((ReadingErrorPx * ReadingErrorPx) + (error * error) + (sampling * sampling)));
    }

    /// <summary>Loss of an edge against any reference: a sharp edge of the photo, a sound zone, or the edge of a scale
    /// card.</summary>
    internal static Measurement Against(string metric, Spread spread, Spread reference)
    {
        var (wide, sharp) = (Math.Max(LeastSpreadPx, spread.Px), Math.Max(LeastSpreadPx, reference.Px));
        var ratio = sharp / wide;

        // Derivative of the ratio with either spread.
        var uncertainty = ratio * Math.Sqrt(
            Math.Pow(spread.HalfWidthPx / wide, 2.0) + Math.Pow(reference.HalfWidthPx / sharp, 2.0));
        return Measurement.Of(metric, Math.Max(0.0, 1.0 - ratio), "1", uncertainty);
    }

    /// <summary>Width of an edge.</summary>
    /// <param name="Px">Standard deviation of a Gaussian, pixels.</param>
    /// <param name="HalfWidthPx">95 % half width, pixels.</param>
    internal readonly record struct Spread(double Px, double HalfWidthPx)
    {
        /// <summary>Median of stretches; a median scatters 1.2533 times as much as a mean.</summary>
        internal static Spread Of(IReadOnlyList<double> stretchesPx)
        {
            var sorted = stretchesPx.Order().ToList();
            var median = 0.5 * (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]);
            var square = sorted.Sum(value => (value - median) * (value - median));
            var scatter = sorted.Count < 3
                ? FewStretchesErrorPx
                : 1.96 * 1.2533 * Math.Sqrt(square / (sorted.Count - 1) / sorted.Count);
            return new(median, Math.Sqrt((scatter * scatter) + (ReadingErrorPx * ReadingErrorPx)));
        }
    }
}
