using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CoatScan.Metrics.Texture;

/// <summary>Finds and removes the steps that a block-coded photo has every 8 pixels of the original.</summary>
/// <remarks>
/// <para>Such steps pose as texture of wavelength 8 px and its harmonics. At each boundary the step is the jump less the mean
/// of the jumps beside it. Where steps on one phase of the period are larger than elsewhere in both directions, each step is
/// spread over the half blocks beside it, shrunk by the share of it that the grid does not explain. A photo without a grid is
/// left as it is; so is a real grating along one axis.</para>
/// <para>The error of the coding itself: blocks err independently, so a step at a boundary has twice the variance of the
/// error of a pixel beyond what steps elsewhere have.</para>
/// <para>Cost: O(n) time, no scratch plane. Source: the 8 x 8 blocks of ITU-T T.81; the correction is our own.</para>
/// </remarks>
internal static class BlockGrid
{
    internal const double BlockPx = 8.0;

    // Under 4 px a period lies below the shortest band.
    private const double ShortestPeriodPx = 4.0;
    private const double LeastExcess = 1.15;

    /// <summary>Removes the grid from a plane in place; answers the rms error of the coding, in the plane's unit, 0 without a
    /// grid.</summary>
    internal static double Remove(Plane plane, double originalPxPerPx)
    {
        var period = BlockPx / originalPxPerPx;
        if (period < ShortestPeriodPx || plane.Width < 8 * BlockPx || plane.Height < 8 * BlockPx)
        {
            return 0.0;
        }

        var columns = ColumnSteps(plane);
        var rows = RowSteps(plane);
        var (columnPhase, columnExcess, columnError) = BestPhase(columns, period);
        var (rowPhase, rowExcess, rowError) = BestPhase(rows, period);
        if (columnExcess < LeastExcess || rowExcess < LeastExcess)
        {
            return 0.0;
        }

        SmoothColumns(plane, Boundaries(columnPhase, period, plane.Width), 1.0 - (1.0 / columnExcess), period);
        SmoothRows(plane, Boundaries(rowPhase, period, plane.Height), 1.0 - (1.0 / rowExcess), period);
        return Math.Sqrt(0.5 * ((columnError / plane.Height) + (rowError / plane.Width)));
    }

    private static double Step(float before, float left, float right, float after) =>
        right - left - (0.5 * (left - before + after - right));

    /// <summary>Mean squared step between columns x - 1 and x.</summary>
    private static double[] ColumnSteps(Plane plane)
    {
        var sums = new float[plane.Width];
        var totals = new double[plane.Width];
        for (var y = 0; y < plane.Height; y++)
        {
            var row = plane.Row(y);
            AddSquares(row[..^3], row[1..^2], row[2..^1], row[3..], sums.AsSpan(2));

            if (y % 64 == 63 || y == plane.Height - 1)
            {
                Drain(sums, totals);
            }
        }

        return totals;
    }

    // The sums hold as many samples as the rows.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddSquares(
        ReadOnlySpan<float> a, ReadOnlySpan<float> b, ReadOnlySpan<float> c, ReadOnlySpan<float> d, Span<float> sums)
    {
        ref var first = ref MemoryMarshal.GetReference(a);
        ref var second = ref MemoryMarshal.GetReference(b);
        ref var third = ref MemoryMarshal.GetReference(c);
        ref var fourth = ref MemoryMarshal.GetReference(d);
        ref var to = ref MemoryMarshal.GetReference(sums);
        var x = 0;
        for (; x <= a.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            var step = Steps(ref first, ref second, ref third, ref fourth, x);
            (Vector.LoadUnsafe(ref to, (nuint)x) + (step * step)).StoreUnsafe(ref to, (nuint)x);
        }

        for (; x < a.Length; x++)
        {
            var step = (1.5f * (c[x] - b[x])) + (0.5f * (a[x] - d[x]));
            sums[x] += step * step;
        }
    }

    private static void Drain(float[] sums, double[] totals)
    {
        for (var x = 0; x < sums.Length; x++)
        {
            totals[x] += sums[x];
            sums[x] = 0.0f;
        }
    }

    private static double[] RowSteps(Plane plane)
    {
        var totals = new double[plane.Height];
        for (var y = 2; y < plane.Height - 1; y++)
        {
            totals[y] = SumOfSquares(plane.Row(y - 2), plane.Row(y - 1), plane.Row(y), plane.Row(y + 1));
        }

        return totals;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static float SumOfSquares(
        ReadOnlySpan<float> a, ReadOnlySpan<float> b, ReadOnlySpan<float> c, ReadOnlySpan<float> d)
    {
        ref var first = ref MemoryMarshal.GetReference(a);
        ref var second = ref MemoryMarshal.GetReference(b);
        ref var third = ref MemoryMarshal.GetReference(c);
        ref var fourth = ref MemoryMarshal.GetReference(d);
        var sums = Vector<float>.Zero;
        var x = 0;
        for (; x <= a.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            var step = Steps(ref first, ref second, ref third, ref fourth, x);
            sums += step * step;
        }

        var sum = Vector.Sum(sums);
        for (; x < a.Length; x++)
        {
            var step = (1.5f * (c[x] - b[x])) + (0.5f * (a[x] - d[x]));
            sum += step * step;
        }

        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<float> Steps(ref float a, ref float b, ref float c, ref float d, int x) =>
        (1.5f * (Vector.LoadUnsafe(ref c, (nuint)x) - Vector.LoadUnsafe(ref b, (nuint)x)))
        + (0.5f * (Vector.LoadUnsafe(ref a, (nuint)x) - Vector.LoadUnsafe(ref d, (nuint)x)));

    /// <summary>Phase whose steps are largest, how many times the mean square of the others they have, and half of what they
    /// have more.</summary>
    private static (double Phase, double Excess, double Error) BestPhase(double[] steps, double period)
    {
        var best = (Phase: 0.0, Excess: 1.0, Error: 0.0);
        var total = 0.0;
        for (var i = 2; i < steps.Length - 1; i++)
        {
            total += steps[i];
        }

        for (var phase = 0.0; phase < period; phase += 1.0)
        {
            var on = 0.0;
            var count = 0;
            foreach (var position in Boundaries(phase, period, steps.Length))
            {
                on += steps[position];
                count++;
            }

            var off = total - on;
            var others = steps.Length - 3 - count;
            if (count > 0 && others > 0 && off > 0.0)
            {
                var excess = on / count / (off / others);
                best = excess > best.Excess ? (phase, excess, 0.5 * ((on / count) - (off / others))) : best;
            }
        }

        return best;
    }

    private static List<int> Boundaries(double phase, double period, int length)
    {
        var positions = new List<int>();
        for (var k = 0; ; k++)
        {
            var position = (int)Math.Round(phase + (k * period));
            if (position >= length - 1)
            {
                return positions;
            }

            if (position >= 2)
            {
                positions.Add(position);
            }
        }
    }

    private static void SmoothColumns(Plane plane, List<int> boundaries, double share, double period)
    {
        var reach = (int)(period / 2.0);
        var steps = new double[boundaries.Count];
        var tapers = new double[reach];
        for (var k = 0; k < reach; k++)
        {
            tapers[k] = Taper(k, reach);
        }

        for (var y = 0; y < plane.Height; y++)
        {
            var row = plane.Row(y);
            for (var i = 0; i < steps.Length; i++)
            {
                var x = boundaries[i];
                steps[i] = share * Step(row[x - 2], row[x - 1], row[x], row[x + 1]);
            }

            for (var i = 0; i < steps.Length; i++)
            {
                for (var k = 0; k < reach; k++)
                {
                    var correction = (float)(steps[i] * tapers[k]);
                    var right = boundaries[i] + k;
                    var left = boundaries[i] - 1 - k;
                    row[Math.Max(left, 0)] += left < 0 ? 0.0f : correction;
                    row[Math.Min(right, row.Length - 1)] -= right >= row.Length ? 0.0f : correction;
                }
            }
        }
    }

    private static void SmoothRows(Plane plane, List<int> boundaries, double share, double period)
    {
        var reach = (int)(period / 2.0);
        var steps = new float[boundaries.Count][];
        for (var i = 0; i < steps.Length; i++)
        {
            steps[i] = new float[plane.Width];
            var y = boundaries[i];
            var a = plane.Row(y - 2);
            var b = plane.Row(y - 1);
            var c = plane.Row(y);
            var d = plane.Row(y + 1);
            for (var x = 0; x < a.Length; x++)
            {
                steps[i][x] = (float)(share * Step(a[x], b[x], c[x], d[x]));
            }
        }

        for (var i = 0; i < steps.Length; i++)
        {
            for (var k = 0; k < reach; k++)
            {
                AddRow(plane, boundaries[i] - 1 - k, steps[i], (float)Taper(k, reach));
                AddRow(plane, boundaries[i] + k, steps[i], -(float)Taper(k, reach));
            }
        }
    }

    private static void AddRow(Plane plane, int y, float[] step, float weight)
    {
        if (y < 0 || y >= plane.Height)
        {
            return;
        }

        var row = plane.Row(y);
        var x = 0;
        for (; x <= row.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            (new Vector<float>(row[x..]) + (weight * new Vector<float>(step, x))).CopyTo(row[x..]);
        }

        for (; x < row.Length; x++)
        {
            row[x] += weight * step[x];
        }
    }

    // Half of the step at the boundary, fading to nothing at the middle of the block.
    private static double Taper(int distance, int reach) => 0.5 * (reach - distance - 0.5) / reach;
}
