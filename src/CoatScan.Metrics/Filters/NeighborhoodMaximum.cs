using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CoatScan.Metrics.Filters;

/// <summary>Largest magnitude in the square around each pixel.</summary>
/// <remarks>
/// A maximum over a window is the maximum of two windows that overlap, so windows of 2, 4, 8 ... samples are built from each
/// other and the last step joins two of them: four passes for 11 samples instead of eleven.
/// </remarks>
internal static class NeighborhoodMaximum
{
    internal static Plane Apply(Plane source, int radiusPx, PlaneScope scope)
    {
        var rows = scope.RentLike(source);
        var window = (2 * radiusPx) + 1;
        var padded = new float[source.Width + (2 * radiusPx)];
        for (var y = 0; y < source.Height; y++)
        {
            Magnitudes(source.Row(y), padded.AsSpan(radiusPx));
            padded.AsSpan(0, radiusPx).Clear();
            padded.AsSpan(radiusPx + source.Width).Clear();
            Widen(padded, window, 1, rows.Row(y));
        }

        var target = scope.RentLike(source);
        var column = scope.Rent(source.Width, source.Height + (2 * radiusPx));
        var border = radiusPx * source.Width;
        column.Values.AsSpan(0, border).Clear();
        column.Values.AsSpan(border + rows.Values.Length).Clear();
        rows.Values.CopyTo(column.Values, border);
        Widen(column.Values, window, source.Width, target.Values);
        scope.Return(rows);
        scope.Return(column);
        return target;
    }

    /// <summary>Maximum over so many samples a stride apart, from each position on; the samples are overwritten.</summary>
    private static void Widen(Span<float> samples, int window, int stride, Span<float> target)
    {
        var length = samples.Length;
        var width = 1;
        for (; 2 * width <= window; width *= 2)
        {
            length -= width * stride;
            Raise(samples[..length], samples.Slice(width * stride, length), samples[..length]);
        }

        Raise(samples[..target.Length], samples.Slice((window - width) * stride, target.Length), target);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Magnitudes(ReadOnlySpan<float> source, Span<float> target)
    {
        for (var x = 0; x < source.Length; x++)
        {
            target[x] = Math.Abs(source[x]);
        }
    }

    // In the order of rising positions, so that the target may be the first source.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Raise(ReadOnlySpan<float> first, ReadOnlySpan<float> second, Span<float> target)
    {
        ref var a = ref MemoryMarshal.GetReference(first);
        ref var b = ref MemoryMarshal.GetReference(second);
        ref var to = ref MemoryMarshal.GetReference(target);
        var x = 0;
        for (; x <= target.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            Vector.Max(Vector.LoadUnsafe(ref a, (nuint)x), Vector.LoadUnsafe(ref b, (nuint)x)).StoreUnsafe(ref to, (nuint)x);
        }

        for (; x < target.Length; x++)
        {
            target[x] = Math.Max(first[x], second[x]);
        }
    }
}
