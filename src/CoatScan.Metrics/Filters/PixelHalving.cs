using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CoatScan.Metrics.Filters;

/// <summary>Halves a plane: each new pixel is the mean of 2 x 2.</summary>
internal static class PixelHalving
{
    /// <summary>Fills a plane of half the width and height, rounded down but at least 1; of a side of one pixel both are that one.</summary>
    internal static void Apply(Plane source, Plane target)
    {
        for (var y = 0; y < target.Height; y++)
        {
            HalveRows(source.Row(2 * y), source.Row(Math.Min((2 * y) + 1, source.Height - 1)), target.Row(y));
        }
    }

    // Two neighbors are one number of twice the bits: its lower half is the left one (the first in memory), its upper half the right one.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void HalveRows(ReadOnlySpan<float> upper, ReadOnlySpan<float> lower, Span<float> target)
    {
        ref var over = ref MemoryMarshal.GetReference(upper);
        ref var under = ref MemoryMarshal.GetReference(lower);
        ref var to = ref MemoryMarshal.GetReference(target);
        var (step, x) = (Vector<float>.Count, 0);
        for (; BitConverter.IsLittleEndian && x <= target.Length - step && (2 * x) + (2 * step) <= upper.Length; x += step)
        {
            var sum = Left(ref over, 2 * x) + Right(ref over, 2 * x) + Left(ref under, 2 * x) + Right(ref under, 2 * x);
            (0.25f * sum).StoreUnsafe(ref to, (nuint)x);
        }

        for (; x < target.Length; x++)
        {
            var right = Math.Min((2 * x) + 1, upper.Length - 1);
            target[x] = 0.25f * (upper[2 * x] + upper[right] + lower[2 * x] + lower[right]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<float> Left(ref float row, int x) =>
        Vector.AsVectorSingle(Vector.Narrow(Pairs(ref row, x), Pairs(ref row, x + Vector<float>.Count)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<float> Right(ref float row, int x) => Vector.AsVectorSingle(Vector.Narrow(
        Vector.ShiftRightLogical(Pairs(ref row, x), 32), Vector.ShiftRightLogical(Pairs(ref row, x + Vector<float>.Count), 32)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<ulong> Pairs(ref float row, int x) => Vector.AsVectorUInt64(Vector.LoadUnsafe(ref row, (nuint)x));
}
