using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CoatScan.Metrics.Marks;

/// <summary>Finds where the response of one blob filter is locally largest and stands out from the texture around.</summary>
/// <remarks>
/// <para>A seed must answer at least 1.2 L* (a disk of 3 L* answers 2.2 at its best scale), at least five times the scatter of
/// the responses in its part of the panel (three times from a radius of 4 px on, since texture of paint is mostly finer; one and a half times from
/// 8 px on, since there the spots themselves make most of the scatter where they lie densely), and as a blob: along a line or an edge one of
/// the two curvatures is missing.</para>
/// <para>Source of the test of curvatures, trace squared over determinant: Lowe, Int. J. Computer Vision 60(2), 2004; its limit
/// (ratio 6) and the other limits are our own.</para>
/// </remarks>
internal static class BlobSearch
{
    private const float LeastResponse = 1.2f;
    private const double FineScatterMultiple = 5.0;
    private const double MiddleScatterMultiple = 3.0;
    private const double CoarseScatterMultiple = 1.5;
    private const int MiddleFactor = 2;
    private const int CoarseFactor = 4;
    private const double LargestCurvatureRatio = 6.0;

    internal static void Collect(Plane smooth, double sigmaPx, int factor, List<SpotSeed> seeds)
    {
        var scale = (float)(sigmaPx * sigmaPx);
        var width = smooth.Width;
        var (above, row, below) = (new float[width], new float[width], new float[width]);
        var scatter = new ResponseScatter(width, smooth.Height);
        var start = seeds.Count;
        FillResponse(smooth, 1, scale, row);
        for (var y = 1; y < smooth.Height - 1; y++)
        {
            if (y + 1 < smooth.Height - 1)
            {
                FillResponse(smooth, y + 1, scale, below);
            }
            else
            {
                below.AsSpan().Clear();
            }

            scatter.Add(y, row);
            AddRow(smooth, y, above, row, below, sigmaPx, factor, seeds);
            (above, row, below) = (row, below, above);
        }

        KeepStrong(seeds, start, factor, scatter);
    }

    /// <summary>Scale-normalized Laplacian of one row; 0 in the first and the last column.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void FillResponse(Plane smooth, int y, float scale, Span<float> target)
    {
        var upper = smooth.Row(y - 1);
        var row = smooth.Row(y);
        var lower = smooth.Row(y + 1);
        var four = new Vector<float>(4.0f);
        var factor = new Vector<float>(scale);
        ref var here = ref MemoryMarshal.GetReference(row);
        ref var over = ref MemoryMarshal.GetReference(upper);
        ref var under = ref MemoryMarshal.GetReference(lower);
        ref var to = ref MemoryMarshal.GetReference(target);
        var x = 1;
        for (; x <= row.Length - 1 - Vector<float>.Count; x += Vector<float>.Count)
        {
            var sum = Vector.LoadUnsafe(ref over, (nuint)x) + Vector.LoadUnsafe(ref under, (nuint)x)
                + Vector.LoadUnsafe(ref here, (nuint)(x - 1)) + Vector.LoadUnsafe(ref here, (nuint)(x + 1));
            (factor * (sum - (four * Vector.LoadUnsafe(ref here, (nuint)x)))).StoreUnsafe(ref to, (nuint)x);
        }

        for (; x < row.Length - 1; x++)
        {
            target[x] = scale * (upper[x] + lower[x] + row[x - 1] + row[x + 1] - (4.0f * row[x]));
        }

        target[0] = 0.0f;
        target[^1] = 0.0f;
    }

    // Most of a panel answers too little: whole vectors are passed over.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddRow(
        Plane smooth,
        int y,
        ReadOnlySpan<float> above,
        ReadOnlySpan<float> row,
        ReadOnlySpan<float> below,
        double sigmaPx,
        int factor,
        List<SpotSeed> seeds)
    {
        var step = Vector<float>.Count;
        Span<int> isCandidate = stackalloc int[step];
        for (var start = 0; start < row.Length; start += step)
        {
            var isWhole = start > 0 && start < row.Length - step;
            var candidates = isWhole ? Largest(above, row, below, start) : -Vector<int>.One;
            if (candidates == Vector<int>.Zero)
            {
                continue;
            }

            candidates.CopyTo(isCandidate);
            var end = Math.Min(start + step, row.Length - 1);
            for (var x = Math.Max(1, start); x < end; x++)
            {
                if (isCandidate[x - start] != 0 && (isWhole || IsLargest(above, row, below, x)) && IsBlob(smooth, x, y))
                {
                    seeds.Add(new(
                        (x * factor) + ((factor - 1) / 2),
                        (y * factor) + ((factor - 1) / 2),
                        (float)(Math.Sqrt(2.0) * sigmaPx * factor),
                        row[x]));
                }
            }
        }
    }

    // All bits where a sample answers enough and none of its eight neighbors answers more.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<int> Largest(ReadOnlySpan<float> above, ReadOnlySpan<float> row, ReadOnlySpan<float> below, int start)
    {
        ref var here = ref Unsafe.Add(ref MemoryMarshal.GetReference(row), start);
        ref var upper = ref Unsafe.Add(ref MemoryMarshal.GetReference(above), start);
        ref var lower = ref Unsafe.Add(ref MemoryMarshal.GetReference(below), start);
        var center = Vector.LoadUnsafe(ref here);
        var limit = new Vector<float>(LeastResponse);
        if (Vector.LessThanAll(Vector.Abs(center), limit))
        {
            return Vector<int>.Zero;
        }

        var (left, right) = (Vector.LoadUnsafe(ref Unsafe.Subtract(ref here, 1)), Vector.LoadUnsafe(ref here, 1));
        var (most, least) = (Vector.Max(limit, Vector.Max(left, right)), Vector.Min(-limit, Vector.Min(left, right)));
        for (var dx = -1; dx <= 1; dx++)
        {
            var (over, under) = (Vector.LoadUnsafe(ref Unsafe.Add(ref upper, dx)), Vector.LoadUnsafe(ref Unsafe.Add(ref lower, dx)));
            most = Vector.Max(most, Vector.Max(over, under));
            least = Vector.Min(least, Vector.Min(over, under));
        }

        return Vector.BitwiseOr(Vector.GreaterThanOrEqual(center, most), Vector.LessThanOrEqual(center, least));
    }

    private static bool IsLargest(ReadOnlySpan<float> above, ReadOnlySpan<float> row, ReadOnlySpan<float> below, int x)
    {
        var sign = row[x] > 0.0f ? 1.0f : -1.0f;
        var most = sign * row[x];
        return most >= LeastResponse && most >= sign * row[x - 1] && most >= sign * row[x + 1]
            && most >= sign * above[x] && most >= sign * below[x]
            && most >= sign * above[x - 1] && most >= sign * above[x + 1]
            && most >= sign * below[x - 1] && most >= sign * below[x + 1];
    }

    private static bool IsBlob(Plane smooth, int x, int y)
    {
        double center = smooth[x, y];
        var xx = smooth[x - 1, y] + smooth[x + 1, y] - (2.0 * center);
        var yy = smooth[x, y - 1] + smooth[x, y + 1] - (2.0 * center);
        var xy = 0.25 * (smooth[x + 1, y + 1] + smooth[x - 1, y - 1] - smooth[x + 1, y - 1] - smooth[x - 1, y + 1]);
        var determinant = (xx * yy) - (xy * xy);
        var trace = xx + yy;
        const double Limit = (LargestCurvatureRatio + 1.0) * (LargestCurvatureRatio + 1.0) / LargestCurvatureRatio;
        return determinant > 0.0 && trace * trace <= Limit * determinant;
    }

    private static void KeepStrong(List<SpotSeed> seeds, int start, int factor, ResponseScatter scatter)
    {
        var multiple = factor < MiddleFactor ? FineScatterMultiple
            : factor < CoarseFactor ? MiddleScatterMultiple
            : CoarseScatterMultiple;
        var kept = start;
        for (var i = start; i < seeds.Count; i++)
        {
            if (seeds[i].Strength >= multiple * scatter.At(seeds[i].X / factor, seeds[i].Y / factor))
            {
                seeds[kept++] = seeds[i];
            }
        }

        seeds.RemoveRange(kept, seeds.Count - kept);
    }
}
