using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Metrics.Marks;

/// <summary>How many spots a panel has, how much of it they cover, of what kind they are and how they lie.</summary>
/// <remarks>
/// <para><c>spot_count</c>: 0 or more; half width of a Poisson count, joined with the doubtful spots: those under 6 px or 4.5 L* of contrast,
/// near the limits of 3 px and 3 L* where another size or coding of the photo may lose or bring them. <c>spot_density_per_mpx</c>: spots a
/// million pixels. <c>spot_density_per_dm2</c>: spots a square decimeter; the scale's uncertainty counts twice.
/// <c>spot_area_fraction</c>: [0, 1] of the pixels that are not clipped; of this photo, so that its half width is that of the
/// edges, half a pixel along all rims, and of the doubtful spots' area.
/// <c>spot_dark_share</c>, <c>spot_ring_share</c>: [0, 1] of the spots that are darker than the paint, that are rings; Wilson's
/// interval. <c>spot_nearest_ratio</c>: see <see cref="SpotPattern"/>.</para>
/// <para>Marks in straight rows of equal size and spacing are fasteners, see <see cref="FastenerRows"/>: they are no spots, and
/// <c>spot_apart_in_row_count</c> says how many were set apart. <c>spot_apart_in_head_count</c>: marks on round heads, see
/// <see cref="FastenerHeads"/>; <c>spot_apart_on_line_count</c>: pieces of a seam or another line, see <see cref="LineFragments"/>; they are no spots
/// either. Half widths of Poisson counts.</para>
/// <para>Absent: panel under 64 px, mostly clipped or too dark, or more than 10,000 marks; densities in millimeters without a scale; shares where there
/// is no spot; the nearest ratio under 8 spots; count, densities and area whose half width is more than they are, from 4 spots on.
/// Sizes: see <see cref="SpotSizes"/>.</para>
/// <para>Comparable only at like sharpness and resolution: spots under about 3 px are missed, and so are those that differ from
/// the paint by less than 3 L*.</para>
/// <para>Sources: see <see cref="SpotFinder"/>.</para>
/// </remarks>
internal static class SpotMetrics
{
    internal const string TooSmall = "the panel is too small: 64 px are needed on the short side";
    internal const string MostlyClipped = "more than half of the panel is clipped to white";
    internal const string TooDark = "the panel is too dark to separate marks from noise";
    internal const string TooManySpots = "more than 10000 marks stand out: that is texture of the picture, not spots to count";
    internal const string NoSpots = "there are no spots";
    internal const string TooFewSpots = "there are too few spots to tell a pattern: 8 are needed";

    private const int LeastSidePx = 64;
    private const double LeastLightness = 2.0;
    private const double SquareMmPerSquareDm = 10_000.0;
    private const double EdgePx = 0.5;
    private const double DoubtfulPx = 6.0;
    private const double DoubtfulContrast = 4.5;
    private const double LeastAreaPx = 4.0;

    // The half width of a Poisson count is less than the count from 4 on (1.96 sqrt 4 = 3.92): where it is more, doubt outweighs chance.
    private const double LeastJudged = 4.0;

    internal static List<Mark> Measure(PanelPlanes panel, double meanLightness, List<Measurement> measurements)
    {
        var usable = panel.Clipped.Length - panel.Clipped.AsSpan().Count(true);
        var reason = Math.Min(panel.Width, panel.Height) < LeastSidePx ? TooSmall
            : 2 * usable < panel.Clipped.Length ? MostlyClipped
            : meanLightness < LeastLightness ? TooDark
            : null;
        var found = reason is null ? SpotFinder.Find(panel.Lightness, panel.Clipped) : [];
        reason ??= found is null ? TooManySpots : null;
        var (marks, fasteners) = FastenerRows.Split(found ?? [], panel.Clipped.Length);
        var (inHeads, onLines) = (0, 0);
        var heads = FastenerHeads.Find(marks, panel.Lightness);
        var spots = marks.FindAll(mark =>
        {
            var isHead = heads.Exists(head => head.Holds(mark));
            var isOnLine = !isHead && LineFragments.IsOnLine(mark, panel.Lightness);
            (inHeads, onLines) = (inHeads + (isHead ? 1 : 0), onLines + (isOnLine ? 1 : 0));
            return !isHead && !isOnLine;
        });
        AddAmounts(panel, spots, usable, reason, measurements);
        AddKinds(panel, spots, reason, measurements);
        SpotSizes.Add(panel, spots, reason, measurements);
        measurements.Add(Value("spot_apart_in_row_count", fasteners.Count, "1", reason, HalfWidth.OfCount(fasteners.Count)));
        measurements.Add(Value("spot_apart_in_head_count", inHeads, "1", reason, HalfWidth.OfCount(inHeads)));
        measurements.Add(Value("spot_apart_on_line_count", onLines, "1", reason, HalfWidth.OfCount(onLines)));
        return spots;
    }

    /// <summary>Takes amounts back that tell nothing: what is doubtful about them is more than they are. For a list whose half widths are complete.</summary>
    internal static void Withhold(List<Measurement> measurements)
    {
        var count = measurements.Find(one => one.Metric == "spot_count")!;
        if (count.Value is not >= LeastJudged)
        {
            return;
        }

        var found = string.Create(
            CultureInfo.InvariantCulture,
            $"{count.Value:0} marks were found, but so many are small or faint that a photo of another size or coding may show none");
        for (var i = 0; i < measurements.Count; i++)
        {
            var one = measurements[i];
            if (one.Metric is "spot_count" or "spot_density_per_mpx" or "spot_density_per_dm2"
                && one.Value is not null && count.Uncertainty > count.Value)
            {
                measurements[i] = Measurement.Absent(one.Metric, one.Unit, found + ": their number is not known");
            }
            else if (one.Metric is "spot_area_fraction" && one.Uncertainty > one.Value)
            {
                measurements[i] = Measurement.Absent(one.Metric, one.Unit, found + ": their area is not known");
            }
        }
    }

    /// <summary>Whether another size or coding of the photo may lose or bring such a mark.</summary>
    internal static bool IsDoubtful(Mark spot) =>
        spot.DiameterPx < DoubtfulPx || Math.Abs(spot.ContrastLightness) < DoubtfulContrast;

    internal static Measurement Value(string metric, double value, string unit, string? reason, double halfWidth) =>
        reason is null
            ? Measurement.Of(metric, value, unit, halfWidth)
            : Measurement.Absent(metric, unit, reason);

    private static void AddAmounts(
        PanelPlanes panel, List<Mark> spots, int usablePx, string? reason, List<Measurement> measurements)
    {
        var (area, rim, doubtful, doubtfulArea) = (0.0, 0.0, 0, 0.0);
        foreach (var spot in spots)
        {
            area += spot.AreaPx;
            rim += Math.PI * spot.DiameterPx;
            if (IsDoubtful(spot))
            {
                doubtful++;
                doubtfulArea += spot.AreaPx;
            }
        }

        double count = spots.Count;
        var half = HalfWidth.Join(HalfWidth.OfCount(count), doubtful);
        var perPixel = 1.0 / Math.Max(usablePx, 1);
        measurements.Add(Value("spot_count", count, "1", reason, half));
        measurements.Add(Value("spot_density_per_mpx", 1e6 * count * perPixel, "/{Mpx}", reason, 1e6 * half * perPixel));
        var shown = PanelArea.Of(panel);
        var perDm2 = shown is { } known ? SquareMmPerSquareDm * perPixel * panel.Clipped.Length / known.Mm2 : 0.0;
        var noScale = shown is null ? AbsentReasons.NoScale : null;
        measurements.Add(Value(
            "spot_density_per_dm2", count * perDm2, "/dm2", reason ?? noScale,
            HalfWidth.Join(half * perDm2, count * perDm2 * (shown?.Uncertainty ?? 0.0))));

        // Where nothing was found, so much of the smallest may still be there.
        var areaHalf = count > 0.0 ? HalfWidth.Join(EdgePx * rim, doubtfulArea) : HalfWidth.OfNone * LeastAreaPx;
        measurements.Add(Value("spot_area_fraction", Math.Min(1.0, area * perPixel), "1", reason, areaHalf * perPixel));
    }

    private static void AddKinds(PanelPlanes panel, List<Mark> spots, string? reason, List<Measurement> measurements)
    {
        var (dark, rings) = (0, 0);
        foreach (var spot in spots)
        {
            dark += spot.ContrastLightness < 0.0 ? 1 : 0;
            rings += spot.IsRing ? 1 : 0;
        }

        var none = reason ?? (spots.Count == 0 ? NoSpots : null);
        double count = Math.Max(1, spots.Count);
        measurements.Add(Value("spot_dark_share", dark / count, "1", none, HalfWidth.OfShare(dark / count, count)));
        measurements.Add(Value("spot_ring_share", rings / count, "1", none, HalfWidth.OfShare(rings / count, count)));
        var few = reason ?? (spots.Count < SpotPattern.LeastSpots ? TooFewSpots : null);
        var pattern = few is null
            ? SpotPattern.Of([.. spots.Select(spot => (spot.CenterXPx, spot.CenterYPx))], panel.Width, panel.Height)
            : default;
        measurements.Add(Value("spot_nearest_ratio", pattern.Ratio, "1", few, pattern.HalfWidth));
    }
}
