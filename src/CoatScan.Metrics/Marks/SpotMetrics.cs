using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Metrics.Marks;

/// <summary>How many spots a panel has, how much of it they cover and how large they are.</summary>
/// <remarks>
/// <para><c>spot_count</c>: 0 or more, with the 95 % half width of a Poisson count. <c>spot_density_per_mpx</c>: spots a
/// million pixels. <c>spot_density_per_dm2</c>: spots a square decimeter. <c>spot_area_fraction</c>: [0, 1] of the pixels that
/// are not clipped. <c>spot_dark_share</c>: [0, 1] of the spots that are darker than the paint.
/// <c>spot_diameter_px</c>, <c>spot_diameter_mm</c>: median diameter of the disk of equal area.</para>
/// <para>Size classes are half open: <c>spot_count_4_8_px</c> is 4 px up to, not including, 8 px.</para>
/// <para>Absent: panel under 64 px, mostly clipped or too dark; densities and classes in millimeters without a scale; a class in
/// millimeters that the photo does not resolve; shares and sizes where there is no spot.</para>
/// <para>Comparable only at like sharpness and resolution: spots under about 3 px are missed.</para>
/// <para>Sources: see <see cref="SpotFinder"/>; the millimeter classes follow the size limits 0.5 and 5 mm of ISO 4628-1 only
/// loosely and are our own.</para>
/// </remarks>
internal static class SpotMetrics
{
    internal const string TooSmall = "the panel is too small: 64 px are needed on the short side";
    internal const string MostlyClipped = "more than half of the panel is clipped to white";
    internal const string TooDark = "the panel is too dark to separate marks from noise";
    internal const string NoSpots = "there are no spots";

    private const int LeastSidePx = 64;
    private const double LeastLightness = 2.0;
    private const double SquareMmPerSquareDm = 10_000.0;
    private const double LeastResolvedPx = 3.0;

    private static readonly double[] PixelLimits = [2, 4, 8, 16, 32, 64, 128];
    private static readonly double[] MmLimits = [0.0, 0.3, 1.0, 5.0, 25.0];

    internal static List<Mark> Measure(PanelPlanes panel, double meanLightness, List<Measurement> measurements)
    {
        var usable = panel.Clipped.Length - panel.Clipped.AsSpan().Count(true);
        var reason = Math.Min(panel.Width, panel.Height) < LeastSidePx ? TooSmall
            : 2 * usable < panel.Clipped.Length ? MostlyClipped
            : meanLightness < LeastLightness ? TooDark
            : null;
        var spots = reason is null ? SpotFinder.Find(panel.Lightness, panel.Clipped) : [];
        AddAmounts(panel, spots, usable, reason, measurements);
        AddPixelClasses(spots, reason, measurements);
        AddMmClasses(spots, reason, panel.MmPerPx, measurements);
        return spots;
    }

    private static void AddAmounts(
        PanelPlanes panel, List<Mark> spots, int usablePx, string? reason, List<Measurement> measurements)
    {
        var area = 0L;
        var dark = 0;
        foreach (var spot in spots)
        {
            area += spot.AreaPx;
            dark += spot.ContrastLightness < 0.0 ? 1 : 0;
        }

        double count = spots.Count;
        var scatter = count > 0.0 ? 1.96 * Math.Sqrt(count) : (double?)null;
        var perPixel = 1.0 / Math.Max(usablePx, 1);
        measurements.Add(Value("spot_count", count, "1", reason, scatter));
        measurements.Add(Value("spot_density_per_mpx", 1e6 * count * perPixel, "/{Mpx}", reason, 1e6 * scatter * perPixel));
        var perDm2 = panel.MmPerPx is { } mm ? SquareMmPerSquareDm * perPixel / (mm * mm) : 0.0;
        measurements.Add(Value(
            "spot_density_per_dm2", count * perDm2, "/dm2", reason ?? NoScaleUnless(panel.MmPerPx), scatter * perDm2));
        measurements.Add(Value("spot_area_fraction", Math.Min(1.0, area * perPixel), "1", reason));
        var none = reason ?? (spots.Count == 0 ? NoSpots : null);
        measurements.Add(Value("spot_dark_share", dark / Math.Max(count, 1.0), "1", none));
        var median = none is null ? MedianDiameter(spots) : 0.0;
        measurements.Add(Value("spot_diameter_px", median, "{px}", none));
        measurements.Add(Value(
            "spot_diameter_mm", median * (panel.MmPerPx ?? 0.0), "mm", none ?? NoScaleUnless(panel.MmPerPx)));
    }

    private static void AddPixelClasses(List<Mark> spots, string? reason, List<Measurement> measurements)
    {
        for (var i = 0; i + 1 < PixelLimits.Length; i++)
        {
            var (low, high) = (PixelLimits[i], PixelLimits[i + 1]);
            var metric = string.Create(CultureInfo.InvariantCulture, $"spot_count_{low}_{high}_px");
            measurements.Add(Value(metric, Count(spots, low, high, 1.0), "1", reason));
        }
    }

    private static void AddMmClasses(
        List<Mark> spots, string? reason, double? mmPerPx, List<Measurement> measurements)
    {
        for (var i = 0; i + 1 < MmLimits.Length; i++)
        {
            var (low, high) = (MmLimits[i], MmLimits[i + 1]);
            var why = reason ?? NoScaleUnless(mmPerPx)
                ?? (high / mmPerPx!.Value < LeastResolvedPx ? NotResolved(high / mmPerPx.Value) : null);
            var value = why is null ? Count(spots, low, high, mmPerPx!.Value) : 0.0;
            measurements.Add(Value(MmClassMetric(low, high), value, "1", why));
        }
    }

    private static string MmClassMetric(double lowMm, double highMm) => lowMm == 0.0
        ? string.Create(CultureInfo.InvariantCulture, $"spot_count_under_{highMm}_mm").Replace('.', '_')
        : string.Create(CultureInfo.InvariantCulture, $"spot_count_{lowMm}_to_{highMm}_mm").Replace('.', '_');

    private static double Count(List<Mark> spots, double low, double high, double unitPerPx)
    {
        var count = 0;
        foreach (var spot in spots)
        {
            var size = spot.DiameterPx * unitPerPx;
            count += size >= low && size < high ? 1 : 0;
        }

        return count;
    }

    // Spots come largest first, so the middle one has the median diameter.
    private static double MedianDiameter(List<Mark> spots) => spots[spots.Count / 2].DiameterPx;

    private static string? NoScaleUnless(double? mmPerPx) => mmPerPx is null ? AbsentReasons.NoScale : null;

    private static string NotResolved(double sizePx) => string.Create(
        CultureInfo.InvariantCulture,
        $"the photo does not resolve this size: {sizePx:0.0} px, {LeastResolvedPx:0} px are needed");

    private static Measurement Value(
        string metric, double value, string unit, string? reason, double? uncertainty = null) =>
        reason is null
            ? Measurement.Of(metric, value, unit, uncertainty)
            : Measurement.Absent(metric, unit, reason);
}
