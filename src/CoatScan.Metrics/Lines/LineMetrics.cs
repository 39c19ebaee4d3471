using CoatScan.Findings;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Lines;

/// <summary>How much line a panel shows and whether the lines run like scratches or like cracks.</summary>
/// <remarks>
/// <para>Measured on the panel reduced to 1024 px on the long side; lengths are given in pixels of the planes.</para>
/// <para><c>line_density</c>: length over area, 1/px, 0 or more. <c>line_density_per_mm</c>: the same in 1/mm.
/// <c>line_junction_density</c>: junctions over length, 1/px; <c>line_junction_density_per_mm</c>: in 1/mm; high in a crack
/// network, near 0 for scratches side by side. <c>line_regularity</c>: [0, 1], see <see cref="LineReading"/>.</para>
/// <para>Absent: panel under 64 px; a photo so blurred that hairlines vanish (over 3 px of blur); 1/mm without a scale;
/// junctions and regularity without lines. Seams, edges of moldings and letters are lines too: the number alone is no fault.</para>
/// <para>Sources: see <see cref="RidgeFilter"/>, <see cref="Skeleton"/>, <see cref="DigitalLength"/>; the regularity is our
/// own.</para>
/// </remarks>
internal static class LineMetrics
{
    internal const string TooSmall = "the panel is too small: 64 px are needed on the short side";
    internal const string NoLines = "there are no lines";
    internal const string TooFewLines = "there are too few lines to tell a pattern";

    private const int LongSidePx = 1024;
    private const int LeastSidePx = 64;
    private const double LargestBlurPx = 3.0;
    private const int LeastBranches = 3;

    internal static void Measure(PanelPlanes panel, SharpnessReading? sharpness, List<Measurement> measurements)
    {
        var reason = Math.Min(panel.Width, panel.Height) < LeastSidePx ? TooSmall
            : sharpness?.EdgeBlurPx > LargestBlurPx ? AbsentReasons.Blurred
            : null;
        var (width, height) = AreaReduction.Fit(panel.Width, panel.Height, LongSidePx);
        var factor = (double)panel.Width / width;
        var lines = reason is null ? Read(panel.Lightness, width, height) : new(0.0, 0, 0, null, 0.0);
        var density = lines.LengthPx / ((double)width * height) / factor;
        var junctions = lines.Junctions / Math.Max(1.0, lines.LengthPx * factor);
        var none = reason ?? (lines.Branches == 0 ? NoLines : null);
        var few = none ?? (lines.Branches < LeastBranches || lines.Regularity is null ? TooFewLines : null);
        var noScale = panel.MmPerPx is null ? AbsentReasons.NoScale : null;
        var mm = panel.MmPerPx ?? 1.0;

        measurements.Add(Value("line_density", density, "/{px}", reason));
        measurements.Add(Value("line_density_per_mm", density / mm, "/mm", reason ?? noScale));
        measurements.Add(Value("line_junction_density", junctions, "/{px}", none));
        measurements.Add(Value("line_junction_density_per_mm", junctions / mm, "/mm", none ?? noScale));
        measurements.Add(Value("line_regularity", lines.Regularity ?? 0.0, "1", few));
    }

    private static LineReading Read(Plane lightness, int width, int height)
    {
        using var scope = new PlaneScope();
        var reduced = scope.Rent(width, height);
        AreaReduction.Apply(lightness, reduced);
        return LineReading.Of(LineFinder.Find(reduced), width, height);
    }

    private static Measurement Value(string metric, double value, string unit, string? reason) =>
        reason is null ? Measurement.Of(metric, value, unit) : Measurement.Absent(metric, unit, reason);
}
