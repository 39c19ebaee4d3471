using System.Numerics;
using System.Runtime.CompilerServices;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Lines;

/// <summary>Finds thin dark and bright lines of a plane.</summary>
/// <remarks>
/// <para>Ridge responses at two widths are compared and the larger one counts. A pixel is on a line if that response is above a
/// threshold, at least 0.3 of the largest within its neighborhood (the side lobes of a strong line are no lines), and above
/// 2.5 times the slope across it: a line has none at its center, the two lobes beside a plain edge have as much as curvature.
/// A connected set needs one pixel of twice the threshold.</para>
/// <para>The threshold is five times the median response, so that texture makes no lines, but at least 0.8 and at most 2.5 L*
/// (a Gaussian line of 2 to 7 L*), so that a dense network does not hide itself.</para>
/// <para>Cost: eight separable filters of the plane given. Deterministic. Source: the thresholds are our own.</para>
/// </remarks>
internal static class LineFinder
{
    /// <summary>Shortest set of pixels that counts as a line, pixels.</summary>
    internal const double ShortestPx = 10.0;

    /// <summary>How many thresholds the strongest pixel of a line must reach.</summary>
    internal const float SeedMultiple = 2.0f;

    private const double FineSigmaPx = 1.2;
    private const double CoarseSigmaPx = 2.4;
    private const int NeighborhoodPx = 8;
    private const float LeastResponse = 0.8f;
    private const float LargestThreshold = 2.5f;
    private const float LeastPeakShare = 0.3f;
    private const float LargestSlopeShare = 0.4f;
    private const float MedianMultiple = 5.0f;

    /// <summary>Finds the lines; the response plane lives as long as the scope.</summary>
    internal static LineMask Find(Plane lightness, PlaneScope scope)
    {
        var fine = RidgeFilter.Apply(lightness, FineSigmaPx, scope);
        var coarse = RidgeFilter.Apply(lightness, CoarseSigmaPx, scope);
        var ridges = Strongest(fine, coarse, scope);
        var peaks = NeighborhoodMaximum.Apply(ridges, NeighborhoodPx, scope);
        var threshold = Math.Clamp(MedianMultiple * MedianMagnitude(ridges), LeastResponse, LargestThreshold);
        ClearSlopes(lightness, fine, FineSigmaPx, threshold, scope);
        ClearSlopes(lightness, coarse, CoarseSigmaPx, threshold, scope);
        var centers = Strongest(fine, coarse, scope);
        var mask = new bool[ridges.Values.Length];
        foreach (var sign in (ReadOnlySpan<float>)[1.0f, -1.0f])
        {
            AddLines(centers, peaks, sign, threshold, mask);
        }

        return new(mask, centers, threshold);
    }

    private static Plane Strongest(Plane fine, Plane coarse, PlaneScope scope)
    {
        var strongest = scope.RentLike(fine);
        ChooseStronger(fine.Values, coarse.Values, strongest.Values);
        return strongest;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void ChooseStronger(float[] fine, float[] coarse, float[] target)
    {
        var i = 0;
        for (; i <= target.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            var (first, second) = (new Vector<float>(fine, i), new Vector<float>(coarse, i));
            var isStronger = Vector.GreaterThan(Vector.Abs(second), Vector.Abs(first));
            Vector.ConditionalSelect(isStronger, second, first).CopyTo(target, i);
        }

        for (; i < target.Length; i++)
        {
            target[i] = Math.Abs(coarse[i]) > Math.Abs(fine[i]) ? coarse[i] : fine[i];
        }
    }

    private static void ClearSlopes(Plane lightness, Plane ridges, double sigmaPx, float threshold, PlaneScope scope)
    {
        var smooth = scope.RentLike(lightness);
        GaussianFilter.Apply(lightness, smooth, sigmaPx);
        for (var y = 0; y < ridges.Height; y++)
        {
            ClearRow(smooth, ridges.Row(y), y, sigmaPx, threshold);
        }

        scope.Return(smooth);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void ClearRow(Plane smooth, Span<float> row, int y, double sigmaPx, float threshold)
    {
        var isInside = y > 0 && y < smooth.Height - 1;
        for (var x = 0; x < row.Length; x++)
        {
            // Most of a panel answers too little: whole vectors are cleared.
            while (x <= row.Length - Vector<float>.Count
                && !Vector.GreaterThanAny(Vector.Abs(new Vector<float>(row[x..])), new Vector<float>(threshold)))
            {
                Vector<float>.Zero.CopyTo(row[x..]);
                x += Vector<float>.Count;
            }

            if (x == row.Length)
            {
                return;
            }

            var response = Math.Abs(row[x]);
            var isLine = response > threshold && isInside && x > 0 && x < row.Length - 1
                && sigmaPx * SlopeAcross(smooth, x, y) <= LargestSlopeShare * response;
            row[x] = isLine ? row[x] : 0.0f;
        }
    }

    // Slope in the direction of the stronger curvature; along a line the slope is free, as near a crossing.
    private static double SlopeAcross(Plane smooth, int x, int y)
    {
        var center = smooth[x, y];
        var (left, right, up, down) = (smooth[x - 1, y], smooth[x + 1, y], smooth[x, y - 1], smooth[x, y + 1]);
        var (slopeX, slopeY) = (0.5f * (right - left), 0.5f * (down - up));
        var (xx, yy) = (left + right - (2.0f * center), up + down - (2.0f * center));
        var xy = 0.25f * (smooth[x + 1, y + 1] + smooth[x - 1, y - 1] - smooth[x + 1, y - 1] - smooth[x - 1, y + 1]);
        var (difference, twist) = (xx - yy, 2.0f * xy);
        var spread = MathF.Sqrt((difference * difference) + (twist * twist));
        var square = (slopeX * slopeX) + (slopeY * slopeY);
        var turned = spread > 0.0f
            ? ((((slopeX * slopeX) - (slopeY * slopeY)) * difference) + (2.0f * slopeX * slopeY * twist)) / spread
            : 0.0f;
        return Math.Sqrt(Math.Max(0.0, 0.5 * (xx + yy >= 0.0f ? square + turned : square - turned)));
    }

    private static float MedianMagnitude(Plane plane)
    {
        var sample = new List<float>();
        var stride = Math.Max(1, plane.Values.Length / 20_011);
        for (var i = 0; i < plane.Values.Length; i += stride)
        {
            sample.Add(Math.Abs(plane.Values[i]));
        }

        sample.Sort();
        return sample[sample.Count / 2];
    }

    private static void AddLines(Plane centers, Plane peaks, float sign, float threshold, bool[] mask)
    {
        var flags = new bool[mask.Length];
        FlagCenters(centers.Values, peaks.Values, sign, threshold, flags);
        var found = ConnectedComponents.Find(flags, centers.Width, centers.Height, Connectivity.Eight);
        var strong = new bool[found.Components.Count];
        foreach (var run in found.Runs)
        {
            for (var x = run.StartX; x < run.EndX && !strong[run.Component]; x++)
            {
                strong[run.Component] = sign * centers[x, run.Y] > SeedMultiple * threshold;
            }
        }

        foreach (var run in found.Runs)
        {
            if (strong[run.Component] && IsLong(found.Components[run.Component]))
            {
                mask.AsSpan((run.Y * centers.Width) + run.StartX, run.Length).Fill(true);
            }
        }
    }

    // Few pixels pass, so the many vectors without one are passed over.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FlagCenters(float[] centers, float[] peaks, float sign, float threshold, bool[] flags)
    {
        var i = 0;
        while (i < flags.Length)
        {
            if (i <= flags.Length - Vector<float>.Count
                && !Vector.GreaterThanAny(sign * new Vector<float>(centers, i), new Vector<float>(threshold)))
            {
                i += Vector<float>.Count;
                continue;
            }

            for (var end = Math.Min(i + Vector<float>.Count, flags.Length); i < end; i++)
            {
                var response = sign * centers[i];
                flags[i] = response > threshold && response >= LeastPeakShare * peaks[i];
            }
        }
    }

    private static bool IsLong(Component component) =>
        Math.Max(component.EndX - component.StartX, component.EndY - component.StartY) >= ShortestPx
        && component.AreaPx >= ShortestPx;
}
