using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CoatScan.Metrics.Filters;

/// <summary>Correlates a plane with the product of a horizontal and a vertical kernel, each given by its right half.</summary>
/// <remarks>
/// Rows are combined vertically, two at a time, into row buffers and those are filtered horizontally at once, so no scratch plane is
/// needed. Borders are mirrored with the edge sample repeated. Both directions are one dot product a vector of neighboring
/// pixels: taps lie a row, or one sample, apart.
/// </remarks>
internal static class SeparableFilter
{
    internal static void Apply(
        Plane source,
        Plane target,
        float[] horizontal,
        float[] vertical,
        KernelParity horizontalParity,
        KernelParity verticalParity)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(target);
        if (source.Width != target.Width || source.Height != target.Height || ReferenceEquals(source.Values, target.Values))
        {
            throw new ArgumentException("The target must be another plane of the same size.", nameof(target));
        }

        Run(source, new PlaneRows(target), horizontal, vertical, horizontalParity, verticalParity);
    }

    /// <summary>Hands on each filtered row, the upper ones first, instead of keeping a plane of them.</summary>
    internal static void Stream(
        Plane source,
        FilteredRow take,
        float[] horizontal,
        float[] vertical,
        KernelParity horizontalParity,
        KernelParity verticalParity) =>
        Run(source, new StreamedRows(new float[source.Width], take), horizontal, vertical, horizontalParity, verticalParity);

    private static void Run<TRows>(
        Plane source,
        TRows target,
        float[] horizontal,
        float[] vertical,
        KernelParity horizontalParity,
        KernelParity verticalParity)
        where TRows : struct, IRows
    {
        var radius = horizontal.Length - 1;
        var columns = new int[(2 * horizontal.Length) - 1];
        for (var k = 0; k <= radius; k++)
        {
            columns[Math.Max(0, (2 * k) - 1)] = radius + k;
            columns[2 * k] = radius - k;
        }

        // Row by row above and below a pair.
        var (above, below) = (new int[vertical.Length], new int[vertical.Length]);
        var (upper, lower) = (new float[source.Width + (2 * radius)], new float[source.Width + (2 * radius)]);
        for (var y = 0; y < source.Height; y += 2)
        {
            for (var k = 0; k < vertical.Length; k++)
            {
                above[k] = Mirror(y - k, source.Height) * source.Width;
                below[k] = Mirror(y + 1 + k, source.Height) * source.Width;
            }

            CombineRows(
                source.Values, above, below, vertical, verticalParity, upper.AsSpan(radius, source.Width), lower.AsSpan(radius, source.Width));
            MirrorEnds(upper, radius, source.Width);
            Combine(upper, columns, horizontal, horizontalParity, target.Row(y));
            target.Done(y);
            if (y + 1 < source.Height)
            {
                MirrorEnds(lower, radius, source.Width);
                Combine(lower, columns, horizontal, horizontalParity, target.Row(y + 1));
                target.Done(y + 1);
            }
        }
    }

    /// <summary>Index inside [0, length) of a position mirrored at both ends, the edge sample repeated.</summary>
    internal static int Mirror(int position, int length)
    {
        if ((uint)position < (uint)length)
        {
            return position;
        }

        var period = 2 * length;
        var folded = ((position % period) + period) % period;
        return folded < length ? folded : period - 1 - folded;
    }

    private static void CombineRows(
        float[] values, int[] above, int[] below, float[] kernel, KernelParity parity, Span<float> upper, Span<float> lower)
    {
        if (parity == KernelParity.Even)
        {
            CombineRows<EvenPair>(values, above, below, kernel, upper, lower);
        }
        else
        {
            CombineRows<OddPair>(values, above, below, kernel, upper, lower);
        }
    }

    // Two rows at once: what the kernel of one reaches below is what that of the other reaches one step before, so that half of the loads, which
    // come from a farther cache, are saved.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void CombineRows<TPair>(
        float[] values, int[] above, int[] below, float[] kernel, Span<float> upper, Span<float> lower)
        where TPair : struct, IKernelPair
    {
        var step = Vector<float>.Count;
        ref var first = ref MemoryMarshal.GetArrayDataReference(values);
        ref var toUpper = ref MemoryMarshal.GetReference(upper);
        ref var toLower = ref MemoryMarshal.GetReference(lower);
        var x = 0;
        for (; x <= upper.Length - (2 * step); x += 2 * step)
        {
            ref var upperCenter = ref Unsafe.Add(ref first, above[0] + x);
            ref var lowerCenter = ref Unsafe.Add(ref first, below[0] + x);
            var (up0, up1) = (Vector.LoadUnsafe(ref upperCenter), Vector.LoadUnsafe(ref upperCenter, (nuint)step));
            var (down0, down1) = (Vector.LoadUnsafe(ref lowerCenter), Vector.LoadUnsafe(ref lowerCenter, (nuint)step));
            var weight = new Vector<float>(kernel[0]);
            var (upper0, upper1, lower0, lower1) = (weight * up0, weight * up1, weight * down0, weight * down1);
            for (var k = 1; k < kernel.Length; k++)
            {
                weight = new Vector<float>(kernel[k]);
                ref var higher = ref Unsafe.Add(ref first, above[k] + x);
                ref var deeper = ref Unsafe.Add(ref first, below[k] + x);
                var (higher0, higher1) = (Vector.LoadUnsafe(ref higher), Vector.LoadUnsafe(ref higher, (nuint)step));
                var (deeper0, deeper1) = (Vector.LoadUnsafe(ref deeper), Vector.LoadUnsafe(ref deeper, (nuint)step));
                upper0 = Vector.FusedMultiplyAdd(weight, TPair.Join(down0, higher0), upper0);
                upper1 = Vector.FusedMultiplyAdd(weight, TPair.Join(down1, higher1), upper1);
                lower0 = Vector.FusedMultiplyAdd(weight, TPair.Join(deeper0, up0), lower0);
                lower1 = Vector.FusedMultiplyAdd(weight, TPair.Join(deeper1, up1), lower1);
                (up0, up1, down0, down1) = (higher0, higher1, deeper0, deeper1);
            }

            upper0.StoreUnsafe(ref toUpper, (nuint)x);
            upper1.StoreUnsafe(ref toUpper, (nuint)(x + step));
            lower0.StoreUnsafe(ref toLower, (nuint)x);
            lower1.StoreUnsafe(ref toLower, (nuint)(x + step));
        }

        for (; x < upper.Length; x++)
        {
            var (up, down) = (values[above[0] + x], values[below[0] + x]);
            var (sumOfUpper, sumOfLower) = (kernel[0] * up, kernel[0] * down);
            for (var k = 1; k < kernel.Length; k++)
            {
                var (higher, deeper) = (values[above[k] + x], values[below[k] + x]);
                sumOfUpper = MathF.FusedMultiplyAdd(kernel[k], TPair.Join(down, higher), sumOfUpper);
                sumOfLower = MathF.FusedMultiplyAdd(kernel[k], TPair.Join(deeper, up), sumOfLower);
                (up, down) = (higher, deeper);
            }

            (upper[x], lower[x]) = (sumOfUpper, sumOfLower);
        }
    }

    private static void Combine(float[] values, int[] taps, float[] kernel, KernelParity parity, Span<float> target)
    {
        if (parity == KernelParity.Even)
        {
            Combine<EvenPair>(values, taps, kernel, target);
        }
        else
        {
            Combine<OddPair>(values, taps, kernel, target);
        }
    }

    // Four vectors side by side hide the latency of the sums: alone, each sum would wait for the one before. Compiled fully at
    // once, because most of the time of the first photo would be spent in an unoptimized version of this loop.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Combine<TPair>(float[] values, int[] taps, float[] kernel, Span<float> target)
        where TPair : struct, IKernelPair
    {
        var step = Vector<float>.Count;
        ref var first = ref MemoryMarshal.GetArrayDataReference(values);
        ref var to = ref MemoryMarshal.GetReference(target);
        var x = 0;
        for (; x <= target.Length - (4 * step); x += 4 * step)
        {
            ref var center = ref Unsafe.Add(ref first, taps[0] + x);
            var weight = new Vector<float>(kernel[0]);
            var sum0 = weight * Vector.LoadUnsafe(ref center);
            var sum1 = weight * Vector.LoadUnsafe(ref center, (nuint)step);
            var sum2 = weight * Vector.LoadUnsafe(ref center, (nuint)(2 * step));
            var sum3 = weight * Vector.LoadUnsafe(ref center, (nuint)(3 * step));
            for (var k = 1; k < kernel.Length; k++)
            {
                weight = new Vector<float>(kernel[k]);
                ref var plus = ref Unsafe.Add(ref first, taps[(2 * k) - 1] + x);
                ref var minus = ref Unsafe.Add(ref first, taps[2 * k] + x);
                sum0 = Vector.FusedMultiplyAdd(
                    weight, TPair.Join(Vector.LoadUnsafe(ref plus), Vector.LoadUnsafe(ref minus)), sum0);
                sum1 = Vector.FusedMultiplyAdd(
                    weight,
                    TPair.Join(Vector.LoadUnsafe(ref plus, (nuint)step), Vector.LoadUnsafe(ref minus, (nuint)step)),
                    sum1);
                sum2 = Vector.FusedMultiplyAdd(
                    weight,
                    TPair.Join(
                        Vector.LoadUnsafe(ref plus, (nuint)(2 * step)), Vector.LoadUnsafe(ref minus, (nuint)(2 * step))),
                    sum2);
                sum3 = Vector.FusedMultiplyAdd(
                    weight,
                    TPair.Join(
                        Vector.LoadUnsafe(ref plus, (nuint)(3 * step)), Vector.LoadUnsafe(ref minus, (nuint)(3 * step))),
                    sum3);
            }

            sum0.StoreUnsafe(ref to, (nuint)x);
            sum1.StoreUnsafe(ref to, (nuint)(x + step));
            sum2.StoreUnsafe(ref to, (nuint)(x + (2 * step)));
            sum3.StoreUnsafe(ref to, (nuint)(x + (3 * step)));
        }

        for (; x <= target.Length - step; x += step)
        {
            var sum = kernel[0] * Vector.LoadUnsafe(ref first, (nuint)(taps[0] + x));
            for (var k = 1; k < kernel.Length; k++)
            {
                var plus = Vector.LoadUnsafe(ref first, (nuint)(taps[(2 * k) - 1] + x));
                var minus = Vector.LoadUnsafe(ref first, (nuint)(taps[2 * k] + x));
                sum = Vector.FusedMultiplyAdd(new Vector<float>(kernel[k]), TPair.Join(plus, minus), sum);
            }

            sum.StoreUnsafe(ref to, (nuint)x);
        }

        for (; x < target.Length; x++)
        {
            var sum = kernel[0] * values[taps[0] + x];
            for (var k = 1; k < kernel.Length; k++)
            {
                sum = MathF.FusedMultiplyAdd(kernel[k], TPair.Join(values[taps[(2 * k) - 1] + x], values[taps[2 * k] + x]), sum);
            }

            target[x] = sum;
        }
    }

    private static void MirrorEnds(float[] padded, int radius, int width)
    {
        for (var k = 1; k <= radius; k++)
        {
            padded[radius - k] = padded[radius + Mirror(-k, width)];
            padded[radius + width - 1 + k] = padded[radius + Mirror(width - 1 + k, width)];
        }
    }

    /// <summary>Where filtered rows go.</summary>
    private interface IRows
    {
        Span<float> Row(int y);

        void Done(int y);
    }

    private readonly struct PlaneRows(Plane plane) : IRows
    {
        public Span<float> Row(int y) => plane.Row(y);

        public void Done(int y)
        {
        }
    }

    private readonly struct StreamedRows(float[] row, FilteredRow take) : IRows
    {
        public Span<float> Row(int y) => row;

        public void Done(int y) => take(y, row);
    }

    /// <summary>How the two samples that share a weight are joined.</summary>
    private interface IKernelPair
    {
        static abstract Vector<float> Join(Vector<float> plus, Vector<float> minus);

        static abstract float Join(float plus, float minus);
    }

    private readonly struct EvenPair : IKernelPair
    {
        public static Vector<float> Join(Vector<float> plus, Vector<float> minus) => plus + minus;

        public static float Join(float plus, float minus) => plus + minus;
    }

    private readonly struct OddPair : IKernelPair
    {
        public static Vector<float> Join(Vector<float> plus, Vector<float> minus) => plus - minus;

        public static float Join(float plus, float minus) => plus - minus;
    }
}
