using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Quality;

/// <summary>Exposure of a photo: clipped shares in [0, 1] and lightness in [0, 100].</summary>
/// <remarks>
/// <para>Percentiles are read from a histogram of 0.1 L* a bin over every second row. No limit is applied: the caller decides what is too dark.</para>
/// <para>Cost: O(n) time, no scratch plane. Deterministic.</para>
/// <para>Source: common practice; no standard was found.</para>
/// </remarks>
public static class Exposure
{
    /// <summary>Measures a lightness plane with its flags of clipped pixels.</summary>
    /// <exception cref="ArgumentException">There is not one flag a pixel.</exception>
    public static ExposureReading Measure(Plane lightness, ReadOnlySpan<bool> clipped)
    {
        ArgumentNullException.ThrowIfNull(lightness);
        if (clipped.Length != lightness.Values.Length)
        {
            throw new ArgumentException($"{clipped.Length} flags for {lightness.Values.Length} pixels.", nameof(clipped));
        }

        var histogram = new ValueHistogram(0.0f, 100.0f, 1000);
        var sum = 0.0;
        for (var y = 0; y < lightness.Height; y++)
        {
            sum += Sum(lightness.Row(y));
            if (y % 2 == 0)
            {
                histogram.Add(lightness.Row(y));
            }
        }

        double count = clipped.Length;
        var areas = ConnectedComponents.Find(clipped, lightness.Width, lightness.Height, Connectivity.Eight);
        long total = 0;
        long largest = 0;
        foreach (var area in areas.Components)
        {
            total += area.AreaPx;
            largest = Math.Max(largest, area.AreaPx);
        }

        return new(
            total / count,
            largest / count,
            sum / count,
            histogram.Quantile(0.05),
            histogram.Quantile(0.5),
            histogram.Quantile(0.95));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static float Sum(ReadOnlySpan<float> row)
    {
        ref var first = ref MemoryMarshal.GetReference(row);
        var sums = Vector<float>.Zero;
        var x = 0;
        for (; x <= row.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            sums += Vector.LoadUnsafe(ref first, (nuint)x);
        }

        var sum = Vector.Sum(sums);
        for (; x < row.Length; x++)
        {
            sum += row[x];
        }

        return sum;
    }
}
