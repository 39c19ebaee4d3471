using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CoatScan.Metrics.Filters;

/// <summary>Shrinks a plane by exact area averaging: each new pixel is the mean of the area that it covers.</summary>
/// <remarks>Cost: O(n) time, one row of scratch. Deterministic. Use on linear light; averages of encoded values are biased.</remarks>
public static class AreaReduction
{
    /// <summary>Size with the long side at most this many pixels and the aspect kept; the same size if already small.</summary>
    public static (int Width, int Height) Fit(int width, int height, int longSidePx)
    {
        var longSide = Math.Max(width, height);
        if (longSide <= longSidePx)
        {
            return (width, height);
        }

        var factor = (double)longSidePx / longSide;
        return (Math.Max(1, (int)Math.Round(width * factor)), Math.Max(1, (int)Math.Round(height * factor)));
    }

    /// <summary>A plane of the given size, neither side larger than the source's.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The size is larger than the source or below 1.</exception>
    public static Plane Apply(Plane source, int width, int height)
    {
        var target = new Plane(width, height);
        Apply(source, target);
        return target;
    }

    internal static void Apply(Plane source, Plane target)
    {
        ArgumentNullException.ThrowIfNull(source);
        var (width, height) = (target.Width, target.Height);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, source.Width, nameof(width));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, source.Height, nameof(height));
        if (width == source.Width && height == source.Height)
        {
            source.Values.CopyTo(target.Values, 0);
            return;
        }

        // First down, then across: down is one sum of whole rows, and the slower step across then runs once a target row.
        var columns = Cells(source.Width, width);
        var rows = Cells(source.Height, height);
        var sums = new float[source.Width];
        var mean = 1.0f / (float)((double)source.Width / width * ((double)source.Height / height));
        for (var y = 0; y < height; y++)
        {
            var cell = rows[y];
            Weigh(source.Row(cell.First), cell.FirstShare, sums);
            for (var inner = cell.First + 1; inner < cell.Last; inner++)
            {
                Add(source.Row(inner), 1.0f, sums);
            }

            if (cell.LastShare > 0.0f)
            {
                Add(source.Row(cell.Last), cell.LastShare, sums);
            }

            ReduceRow(sums, columns, mean, target.Row(y));
        }
    }

    /// <summary>Which source samples each target sample covers.</summary>
    private static Cell[] Cells(int source, int target)
    {
        var perTarget = (double)source / target;
        var cells = new Cell[target];
        for (var i = 0; i < target; i++)
        {
            var start = i * perTarget;
            var end = Math.Min((i + 1) * perTarget, source);
            var first = (int)start;
            var last = Math.Min((int)end, source - 1);

            // A cell is at least one sample wide, so that first and last are one only where it is exactly that sample.
            cells[i] = last == first
                ? new(first, first, (float)(end - start), 0.0f)
                : new(first, last, (float)(first + 1 - start), (float)(end - last));
        }

        return cells;
    }

    private static void Weigh(ReadOnlySpan<float> row, float weight, Span<float> sums)
    {
        sums.Clear();
        Add(row, weight, sums);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(ReadOnlySpan<float> row, float weight, Span<float> sums)
    {
        ref var from = ref MemoryMarshal.GetReference(row);
        ref var to = ref MemoryMarshal.GetReference(sums);
        var weights = new Vector<float>(weight);
        var x = 0;
        for (; x <= sums.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            var sum = Vector.LoadUnsafe(ref to, (nuint)x) + (weights * Vector.LoadUnsafe(ref from, (nuint)x));
            sum.StoreUnsafe(ref to, (nuint)x);
        }

        for (; x < sums.Length; x++)
        {
            sums[x] += weight * row[x];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void ReduceRow(ReadOnlySpan<float> source, Cell[] cells, float mean, Span<float> target)
    {
        for (var x = 0; x < target.Length; x++)
        {
            ref readonly var cell = ref cells[x];
            var sum = (cell.FirstShare * source[cell.First]) + (cell.LastShare * source[cell.Last]);
            for (var i = cell.First + 1; i < cell.Last; i++)
            {
                sum += source[i];
            }

            target[x] = sum * mean;
        }
    }

    /// <summary>The samples from <paramref name="First"/> to <paramref name="Last"/>; of these two a share in (0, 1] counts.</summary>
    private readonly record struct Cell(int First, int Last, float FirstShare, float LastShare);
}
