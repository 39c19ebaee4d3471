using System.Globalization;
using CoatScan.Findings;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Marks;

/// <summary>How large the spots of a panel are: median, large ones, and counts by class.</summary>
/// <remarks>
/// <para><c>spot_diameter_px</c>, <c>spot_diameter_mm</c>: median diameter of the disk of equal area.
/// <c>spot_diameter_large_px</c>, <c>spot_diameter_large_mm</c>: the diameter that one spot in ten exceeds. Their half width
/// joins the 95 % interval of the quantile's rank (normal form of the binomial), half a pixel of edge (a quarter on each side) and the scale's.</para>
/// <para>Classes are half open: <c>spot_count_4_8_px</c> is 4 px up to, not including, 8 px; half width of a Poisson count.</para>
/// <para>Absent: sizes where there is no spot; millimeters without a scale; a class that the photo does not resolve.</para>
/// <para>Source: the millimeter classes follow the limits 0.5 and 5 mm of ISO 4628-1 only loosely and are our own.</para>
/// </remarks>
internal static class SpotSizes
{
    private const double LeastResolvedPx = 3.0;
    private const double EdgePx = 0.5;
    private const double LargeShare = 0.9;

    private static readonly double[] PixelLimits = [2, 4, 8, 16, 32, 64, 128];
    private static readonly double[] MmLimits = [0.0, 0.3, 1.0, 5.0, 25.0];

    /// <summary>Adds all sizes; spots come largest first.</summary>
    internal static void Add(PanelPlanes panel, List<Mark> spots, string? reason, List<Measurement> measurements)
    {
        var none = reason ?? (spots.Count == 0 ? SpotMetrics.NoSpots : null);
        var px = spots.ConvertAll(spot => new Estimate(spot.DiameterPx, 0.0));
        var mm = spots.ConvertAll(spot => InMm(panel, spot));
        mm.Sort((first, second) => second.Value.CompareTo(first.Value));
        var noMm = none ?? (panel.MmPerPx is null ? AbsentReasons.NoScale : null);
        AddQuantile("spot_diameter_px", 0.5, px, none, EdgePx, "{px}", measurements);
        AddQuantile("spot_diameter_mm", 0.5, mm, noMm, EdgePx * (panel.MmPerPx ?? 0.0), "mm", measurements);
        AddQuantile("spot_diameter_large_px", LargeShare, px, none, EdgePx, "{px}", measurements);
        AddQuantile("spot_diameter_large_mm", LargeShare, mm, noMm, EdgePx * (panel.MmPerPx ?? 0.0), "mm", measurements);
        AddPixelClasses(spots, reason, measurements);
        AddMmClasses(mm, reason, panel.MmPerPx, measurements);
    }

    // On a tilted panel each spot is measured by the scale where it lies.
    private static Estimate InMm(PanelPlanes panel, Mark spot) =>
        panel.ScaleAt(spot.CenterXPx, spot.CenterYPx) is { } scale
            ? new Estimate(spot.DiameterPx * scale.MmPerPx, spot.DiameterPx * scale.MmPerPx * scale.RelativeUncertainty)
            : default;

    private static void AddQuantile(
        string metric, double share, List<Estimate> sizes, string? none, double edge, string unit, List<Measurement> measurements)
    {
        if (none is not null)
        {
            measurements.Add(Measurement.Absent(metric, unit, none));
            return;
        }

        var rank = (1.0 - share) * sizes.Count;
        var spread = HalfWidth.Normal * Math.Sqrt(share * (1.0 - share) * sizes.Count);
        var size = At(sizes, rank);
        var ranks = Math.Max(At(sizes, rank - spread).Value - size.Value, size.Value - At(sizes, rank + spread).Value);
        measurements.Add(Measurement.Of(metric, size.Value, unit, HalfWidth.Join(HalfWidth.Join(ranks, edge), size.HalfWidth)));
    }

    private static Estimate At(List<Estimate> sizes, double rank) =>
        sizes[Math.Clamp((int)Math.Floor(rank), 0, sizes.Count - 1)];

    private static void AddPixelClasses(List<Mark> spots, string? reason, List<Measurement> measurements)
    {
        for (var i = 0; i + 1 < PixelLimits.Length; i++)
        {
            var (low, high) = (PixelLimits[i], PixelLimits[i + 1]);
            var metric = string.Create(CultureInfo.InvariantCulture, $"spot_count_{low}_{high}_px");
            var count = spots.Count(spot => spot.DiameterPx >= low && spot.DiameterPx < high);
            measurements.Add(SpotMetrics.Value(metric, count, "1", reason, HalfWidth.OfCount(count)));
        }
    }

    private static void AddMmClasses(List<Estimate> sizes, string? reason, double? mmPerPx, List<Measurement> measurements)
    {
        for (var i = 0; i + 1 < MmLimits.Length; i++)
        {
            var (low, high) = (MmLimits[i], MmLimits[i + 1]);
            var why = reason ?? (mmPerPx is null ? AbsentReasons.NoScale : null)
                ?? (high / mmPerPx!.Value < LeastResolvedPx ? NotResolved(high / mmPerPx.Value) : null);
            var count = why is null ? sizes.Count(size => size.Value >= low && size.Value < high) : 0;
            measurements.Add(SpotMetrics.Value(MmClassMetric(low, high), count, "1", why, HalfWidth.OfCount(count)));
        }
    }

    private static string MmClassMetric(double lowMm, double highMm) => lowMm == 0.0
        ? string.Create(CultureInfo.InvariantCulture, $"spot_count_under_{highMm}_mm").Replace('.', '_')
        : string.Create(CultureInfo.InvariantCulture, $"spot_count_{lowMm}_to_{highMm}_mm").Replace('.', '_');

    private static string NotResolved(double sizePx) => string.Create(
        CultureInfo.InvariantCulture,
        $"the photo does not resolve this size: {sizePx:0.0} px, {LeastResolvedPx:0} px are needed");
}
