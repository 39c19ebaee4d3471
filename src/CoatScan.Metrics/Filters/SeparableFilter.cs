using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CoatScan.Metrics.Filters;

/// <summary>Correlates a plane with the product of a horizontal and a vertical kernel, each given by its right half.</summary>
/// <remarks>
/// Rows are combined vertically into one row buffer and that row is filtered horizontally at once, so no scratch plane is
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

        var radius = horizontal.Length - 1;
        var padded = new float[source.Width + (2 * radius)];
        var rows = new int[(2 * vertical.Length) - 1];
        var columns = new int[(2 * horizontal.Length) - 1];
        for (var k = 0; k <= radius; k++)
        {
            SetTaps(columns, k, radius + k, radius - k);
        }

        for (var y = 0; y < source.Height; y++)
        {
            for (var k = 0; k < vertical.Length; k++)
            {
                SetTaps(
                    rows, k, Mirror(y + k, source.Height) * source.Width, Mirror(y - k, source.Height) * source.Width);
            }

            Combine(source.Values, rows, vertical, verticalParity, padded.AsSpan(radius, source.Width));
            MirrorEnds(padded, radius, source.Width);
            Combine(padded, columns, horizontal, horizontalParity, target.Row(y));
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

    // Taps in the order center, +1, -1, +2, -2, ...
    private static void SetTaps(int[] taps, int k, int plus, int minus)
    {
        taps[Math.Max(0, (2 * k) - 1)] = plus;
        taps[2 * k] = minus;
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
