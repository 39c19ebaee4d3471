using CoatScan.Findings;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Lines;

/// <summary>How much line a panel shows, and what the lines are like: cracks, scratches, swirl, a single track.</summary>
/// <remarks>
/// <para>Found on the panel reduced to 1024 px on the long side; lengths are given in pixels of the planes. Each name in
/// <c>per_mm</c> or <c>mm</c> is the one in pixels over the scale.</para>
/// <para><c>line_density</c>: length over area, 1/px. <c>line_area_fraction</c>: [0, 1], length times width less what lies twice at
/// crossings. <c>line_width_px</c>, <c>line_contrast</c> (L*, below 0 dark): <see cref="LineWidth"/>.
/// <c>line_junction_density</c>: places where lines meet over length, 1/px. <c>line_cell_count</c>: <see cref="LineCells"/>.
/// <c>line_direction_spread</c> and <c>line_local_direction_spread</c>, [0, 1]: <see cref="LineDirections"/>.
/// <c>line_straightness</c>, <c>line_arc_share</c>, <c>line_curvature</c> (1/px), <c>line_longest_share</c>,
/// <c>line_through_share</c> (of lines that enter and leave the photo), all but curvature [0, 1]: <see cref="LineShapes"/>. Read
/// together, see the table.</para>
/// <list type="table">
/// <listheader><term>Pattern</term><description>What the numbers say, by <c>LinePatternTests</c></description></listheader>
/// <item><term>crack network</term><description>cells, junctions, direction spread overall and locally high</description></item>
/// <item><term>separate cracks</term><description>no or few cells, both spreads high, straightness middling, few arcs</description></item>
/// <item><term>scratches side by side</term><description>no junctions, both spreads near 0, straight, longest share small</description></item>
/// <item><term>swirl around a light</term><description>spread high overall and low locally, most length in arcs</description></item>
/// <item><term>single track, edge of a run</term><description>longest share near 1, through share 0; a run's edge is an arc</description></item>
/// <item><term>seam, molding, panel gap</term><description>longest and through share high, straight</description></item>
/// </list>
/// <para>Nothing here tells letters, a reflected edge or fasteners (arcs that enclose cells) from faults.</para>
/// <para>Uncertainty of the length: 2 % of the digital length, two pixels an end, one line of the shortest length, and all length that
/// a quarter more of threshold would not have found, as the root of the sum of squares; the first and the last enter the shares too.
/// Counts carry 1.96 root n, at least 1.96. Curvature adds the grid's error of a direction over the mean line.</para>
/// <para>Absent: panel under 64 px; a photo so blurred that hairlines vanish (over 3 px of blur); millimeters without a scale; what
/// lines are like without lines. Seams, edges of moldings, letters and reflections are lines too: no number alone is a fault.</para>
/// <para>Cost: eight separable filters of a million pixels, then by length of line. Sources: see <see cref="RidgeFilter"/>,
/// <see cref="Skeleton"/>, <see cref="DigitalLength"/>.</para>
/// </remarks>
internal static class LineMetrics
{
    internal const string TooSmall = "the panel is too small: 64 px are needed on the short side";
    internal const string NoLines = "there are no lines";
    internal const string NoNeighbors = "no two lines lie side by side, so there is nothing to compare";
    internal const string NoProfile = "no line stands clear of its surroundings, so its width cannot be read";

    internal const int LongSidePx = 1024;
    private const int LeastSidePx = 64;
    private const double LargestBlurPx = 3.0;
    private const double EndPx = 2.0;

    internal static void Measure(PanelPlanes panel, SharpnessReading? sharpness, List<Measurement> measurements)
    {
        var reason = Math.Min(panel.Width, panel.Height) < LeastSidePx ? TooSmall
            : sharpness?.EdgeBlurPx > LargestBlurPx ? AbsentReasons.Blurred
            : null;
        var (width, height) = AreaReduction.Fit(panel.Width, panel.Height, LongSidePx);
        var factor = (double)panel.Width / width;
        var lines = reason is null ? Read(panel.Lightness, width, height) : null;
        var profile = lines is null ? null : LineWidth.Of(panel.Lightness, lines.Lines, factor);
        var list = new MeasurementList(panel.MeanScale, measurements);
        AddAmounts(list, lines, profile, factor, (double)panel.Width * panel.Height, reason);
        AddNetwork(list, lines, factor, reason);
        AddShapes(list, lines, factor, reason);
    }

    private static LineReading Read(Plane lightness, int width, int height)
    {
        using var scope = new PlaneScope();
        var reduced = scope.Rent(width, height);
        AreaReduction.Apply(lightness, reduced);
        return LineReading.Of(LineFinder.Find(reduced, scope));
    }

    private static void AddAmounts(
        MeasurementList list, LineReading? lines, LineWidth? profile, double factor, double areaPx, string? reason)
    {
        var length = LengthOf(lines).Times(factor);
        list.AddPerPx("line_density", "line_density_per_mm", length.Times(1.0 / areaPx), reason);
        var none = reason ?? (lines is { Lines.Count: 0 } ? NoLines : profile is null ? NoProfile : null);
        var width = profile?.WidthPx ?? default;
        list.AddPx("line_width_px", "line_width_mm", width, none);
        list.Add("line_contrast", "1", profile?.Contrast ?? default, none);
        var area = new Estimate(
            Math.Clamp(((length.Value * width.Value) - (0.5 * (lines?.Overlaps ?? 0) * width.Value * width.Value)) / areaPx, 0.0, 1.0),
            length.HalfWidth * width.Value / areaPx).Widened(length.Value * width.HalfWidth / areaPx);
        var isEmpty = lines is { Lines.Count: 0 };
        list.Add("line_area_fraction", "1", area.Widened(isEmpty ? length.HalfWidth / areaPx : 0.0), reason ?? (isEmpty ? null : none));
    }

    private static void AddNetwork(MeasurementList list, LineReading? lines, double factor, string? reason)
    {
        var none = reason ?? (lines is { Lines.Count: 0 } ? NoLines : null);
        var perLength = 1.0 / Math.Max(1.0, (lines?.LengthPx ?? 0.0) * factor);
        list.AddPerPx(
            "line_junction_density", "line_junction_density_per_mm", Counted(lines?.Junctions ?? 0).Times(perLength), none);
        list.Add("line_cell_count", "1", Counted(lines?.Cells ?? 0), reason);
        var doubt = DoubtOf(lines);
        list.Add("line_direction_spread", "1", (lines?.Directions.Spread ?? default).Widened(doubt), none);
        var local = lines?.Directions.LocalSpread;
        list.Add(
            "line_local_direction_spread", "1", (local ?? default).Widened(doubt), none ?? (local is null ? NoNeighbors : null));
    }

    private static void AddShapes(MeasurementList list, LineReading? lines, double factor, string? reason)
    {
        var none = reason ?? (lines is { Lines.Count: 0 } ? NoLines : null);
        var shapes = lines?.Shapes;
        var doubt = DoubtOf(lines);
        list.Add("line_straightness", "1", (shapes?.Straightness ?? default).Widened(doubt), none);
        list.Add("line_arc_share", "1", (shapes?.Arcs ?? default).Widened(doubt), none);
        var curvature = shapes?.Curvature ?? default;
        var grid = LineArc.GridError * (lines?.Lines.Count ?? 0) / Math.Max(1.0, lines?.LengthPx ?? 0.0);
        list.AddPerPx(
            "line_curvature",
            "line_curvature_per_mm",
            curvature.Widened(doubt * curvature.Value).Widened(1.96 * grid).Times(1.0 / factor),
            none);
        list.Add("line_longest_share", "1", (shapes?.Longest ?? default).Widened(doubt), none);
        list.Add("line_through_share", "1", (shapes?.RunningOut ?? default).Widened(doubt), none);
    }

    private static Estimate LengthOf(LineReading? lines) => lines is null
        ? default
        : new Estimate(lines.LengthPx, DigitalLength.LargestError * lines.LengthPx)
            .Widened(EndPx * Math.Sqrt(lines.FreeEnds))
            .Widened(lines.DoubtfulPx)
            .Widened(LineFinder.ShortestPx);

    // Share of the length that may be missing or too much.
    private static double DoubtOf(LineReading? lines) =>
        Math.Sqrt(
            Math.Pow(DigitalLength.LargestError, 2.0)
            + Math.Pow(lines is { LengthPx: > 0.0 } ? lines.DoubtfulPx / lines.LengthPx : 0.0, 2.0));

    private static Estimate Counted(int count) => new(count, 1.96 * Math.Sqrt(Math.Max(count, 1)));
}
