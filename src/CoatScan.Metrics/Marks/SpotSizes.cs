using System.Globalization;
using CoatScan.Findings;

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
    internal static void Add(
        List<Mark> spots, string? reason, double? mmPerPx, double scaleUncertainty, List<Measurement> measurements)
    {
        var none = reason ?? (spots.Count == 0 ? SpotMetrics.NoSpots : null);
        AddQuantile("spot_diameter", 0.5, spots, none, mmPerPx, scaleUncertainty, measurements);
        AddQuantile("spot_diameter_large", LargeShare, spots, none, mmPerPx, scaleUncertainty, measurements);
        AddPixelClasses(spots, reason, measurements);
        AddMmClasses(spots, reason, mmPerPx, measurements);
    }

    private static void AddQuantile(
        string metric,
        double share,
        List<Mark> spots,
        string? none,
        double? mmPerPx,
        double scaleUncertainty,
        List<Measurement> measurements)
    {
        var (px, half) = none is null ? Quantile(spots, share) : (0.0, 0.0);
        measurements.Add(SpotMetrics.Value(metric + "_px", px, "{px}", none, half));
        var mm = mmPerPx ?? 0.0;
        measurements.Add(SpotMetrics.Value(
            metric + "_mm",
            px * mm,
            "mm",
            none ?? (mmPerPx is null ? AbsentReasons.NoScale : null),
            HalfWidth.Join(half * mm, px * mm * scaleUncertainty)));
    }

    private static (double Px, double HalfWidth) Quantile(List<Mark> spots, double share)
    {
        var rank = (1.0 - share) * spots.Count;
        var spread = HalfWidth.Normal * Math.Sqrt(share * (1.0 - share) * spots.Count);
        var (large, small) = (At(spots, rank - spread), At(spots, rank + spread));
        var px = At(spots, rank);
        return (px, HalfWidth.Join(Math.Max(large - px, px - small), EdgePx));
    }

    private static double At(List<Mark> spots, double rank) =>
        spots[Math.Clamp((int)Math.Floor(rank), 0, spots.Count - 1)].DiameterPx;

    private static void AddPixelClasses(List<Mark> spots, string? reason, List<Measurement> measurements)
    {
        for (var i = 0; i + 1 < PixelLimits.Length; i++)
        {
            var (low, high) = (PixelLimits[i], PixelLimits[i + 1]);
            var metric = string.Create(CultureInfo.InvariantCulture, $"spot_count_{low}_{high}_px");
            var count = Count(spots, low, high, 1.0);
            measurements.Add(SpotMetrics.Value(metric, count, "1", reason, HalfWidth.OfCount(count)));
        }
    }

    private static void AddMmClasses(
        List<Mark> spots, string? reason, double? mmPerPx, List<Measurement> measurements)
    {
        for (var i = 0; i + 1 < MmLimits.Length; i++)
        {
            var (low, high) = (MmLimits[i], MmLimits[i + 1]);
            var why = reason ?? (mmPerPx is null ? AbsentReasons.NoScale : null)
                ?? (high / mmPerPx!.Value < LeastResolvedPx ? NotResolved(high / mmPerPx.Value) : null);
            var count = why is null ? Count(spots, low, high, mmPerPx!.Value) : 0.0;
            measurements.Add(SpotMetrics.Value(MmClassMetric(low, high), count, "1", why, HalfWidth.OfCount(count)));
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

    private static string NotResolved(double sizePx) => string.Create(
        CultureInfo.InvariantCulture,
        $"the photo does not resolve this size: {sizePx:0.0} px, {LeastResolvedPx:0} px are needed");
}
