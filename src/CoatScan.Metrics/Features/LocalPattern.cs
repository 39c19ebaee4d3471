using System.Globalization;
using System.Numerics;
using System.Runtime.CompilerServices;
using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Features;

/// <summary>Histogram of rotation-invariant uniform local binary patterns: eight neighbors at radius 1 and at radius 3.</summary>
/// <remarks>
/// <para>Bins 0 to 8 count the neighbors not darker than the center where those form one arc, bin 9 is everything else. A pixel
/// counts as darker only by more than 0.3 L*, so that coding noise makes no pattern: a flat area has code 8.</para>
/// <para>Neighbors at radius 3 are taken on a plane smoothed by 1.2 px at offsets 3 and 2.</para>
/// <para>Source: Ojala, Pietikainen and Maenpaa, IEEE PAMI 24(7), 2002 (codes).</para>
/// </remarks>
internal static class LocalPattern
{
    internal const int Bins = 10;

    private const float Tolerance = 0.3f;

    internal static void Write(Plane lightness, FeatureWriter writer)
    {
        WriteHistogram("pattern_1", Histogram(lightness, 1, 1), writer);
        WriteHistogram("pattern_3", Histogram(GaussianFilter.Apply(lightness, 1.2), 3, 2), writer);
    }

    /// <summary>Share of each code over the pixels that have all neighbors; all 0 for a plane too small.</summary>
    internal static double[] Histogram(Plane plane, int straightPx, int diagonalPx, float tolerance = Tolerance)
    {
        var width = plane.Width;
        int[] offsets =
        [
            -straightPx * width, (-diagonalPx * width) + diagonalPx, straightPx, (diagonalPx * width) + diagonalPx,
            straightPx * width, (diagonalPx * width) - diagonalPx, -straightPx, (-diagonalPx * width) - diagonalPx,
        ];
        var counts = new int[256];
        for (var y = straightPx; y < plane.Height - straightPx; y++)
        {
            CountRow(plane.Values, (y * width) + straightPx, width - (2 * straightPx), offsets, tolerance, counts);
        }

        return Shares(counts);
    }

    /// <summary>Counts the bit patterns of a stretch of pixels, bit k for the neighbor at offset k.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void CountRow(float[] values, int start, int length, int[] offsets, float tolerance, int[] counts)
    {
        Span<int> patterns = stackalloc int[Vector<int>.Count];
        var i = 0;
        for (; i <= length - Vector<float>.Count; i += Vector<float>.Count)
        {
            var limit = new Vector<float>(values, start + i) - new Vector<float>(tolerance);
            var bits = Vector<int>.Zero;
            for (var k = 0; k < offsets.Length; k++)
            {
                var isSet = Vector.GreaterThanOrEqual(new Vector<float>(values, start + i + offsets[k]), limit);
                bits |= isSet & new Vector<int>(1 << k);
            }

            bits.CopyTo(patterns);
            foreach (var pattern in patterns)
            {
                counts[pattern]++;
            }
        }

        for (; i < length; i++)
        {
            var limit = values[start + i] - tolerance;
            var bits = 0;
            for (var k = 0; k < offsets.Length; k++)
            {
                bits |= values[start + i + offsets[k]] >= limit ? 1 << k : 0;
            }

            counts[bits]++;
        }
    }

    private static double[] Shares(int[] counts)
    {
        var codes = new int[Bins];
        var total = 0;
        for (var bits = 0; bits < counts.Length; bits++)
        {
            codes[Code(bits)] += counts[bits];
            total += counts[bits];
        }

        return Array.ConvertAll(codes, count => (double)count / Math.Max(1, total));
    }

    private static int Code(int bits)
    {
        var turned = ((bits >> 1) | (bits << 7)) & 0xFF;
        return int.PopCount(bits ^ turned) <= 2 ? int.PopCount(bits) : Bins - 1;
    }

    private static void WriteHistogram(string name, double[] shares, FeatureWriter writer)
    {
        for (var code = 0; code < Bins; code++)
        {
            writer.Add(string.Create(CultureInfo.InvariantCulture, $"{name}_{code}"), shares[code]);
        }
    }
}
