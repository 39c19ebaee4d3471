using System.Runtime.CompilerServices;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Zones;

/// <summary>The two colors that split a panel best, by two means in CIELAB.</summary>
/// <param name="First">Mean of the larger part.</param>
/// <param name="Second">Mean of the smaller part.</param>
/// <param name="SmallerShare">Share of the smaller part, [0, 0.5].</param>
/// <param name="Scatter">Root mean square distance of the pixels to their mean, Lab units.</param>
/// <remarks>
/// Means start at the pixels of the 5th and the 95th percentile along L* + 2 C* and settle within 12 rounds. Every third pixel
/// is used. Sixteen bands of rows are kept apart for the uncertainty. Deterministic. Source: Lloyd's two-means, common practice.
/// </remarks>
internal sealed record TwoColors(LabColor First, LabColor Second, double SmallerShare, double Scatter)
{
    private const int Rounds = 12;
    private const int Stride = 3;
    private const int Bands = 16;
    private const double LeastDistance = 6.0;
    private const double LeastShare = 0.05;

    private (Sums Larger, Sums Smaller)[] _bands = [];

    /// <summary>There is one color only: the second is too near or too small.</summary>
    internal bool IsOne => Distance < LeastDistance || SmallerShare < LeastShare;

    /// <summary>Distance of the two means in CIELAB.</summary>
    internal double Distance => Math.Sqrt(SquareDistance(First, Second.L, Second.A, Second.B));

    /// <summary>A value of the two means, and how far it would be off without one band or by the coding of the photo.</summary>
    internal Estimate Estimate(Func<LabColor, LabColor, double> of)
    {
        var value = of(First, Second);
        var (larger, smaller) = (default(Sums), default(Sums));
        foreach (var band in _bands)
        {
            larger += band.Larger;
            smaller += band.Smaller;
        }

        var used = _bands.Where(band => larger.Count > band.Larger.Count && smaller.Count > band.Smaller.Count).ToList();
        var estimate = new Estimate(
            value,
            Jackknife.HalfWidth(used.Count, i => of((larger - used[i].Larger).Mean, (smaller - used[i].Smaller).Mean)));
        foreach (var pair in CodingError.Around(First, StoredColor.Unknown).Chunk(2))
        {
            estimate = estimate.Widened(Math.Max(Math.Abs(of(pair[0], Second) - value), Math.Abs(of(pair[1], Second) - value)));
        }

        foreach (var pair in CodingError.Around(Second, StoredColor.Unknown).Chunk(2))
        {
            estimate = estimate.Widened(Math.Max(Math.Abs(of(First, pair[0]) - value), Math.Abs(of(First, pair[1]) - value)));
        }

        return estimate;
    }

    internal static TwoColors Of(LabPlanes lab)
    {
        var count = (lab.Lightness.Values.Length + Stride - 1) / Stride;
        var l = Sample(lab.Lightness, count);
        var a = Sample(lab.AStar, count);
        var b = Sample(lab.BStar, count);
        var keys = new float[count];
        for (var i = 0; i < count; i++)
        {
            keys[i] = Key(l[i], a[i], b[i]);
        }

        var histogram = new ValueHistogram(0.0f, 400.0f, 4000);
        histogram.Add(keys);
        var low = Nearest(keys, (float)histogram.Quantile(0.05));
        var high = Nearest(keys, (float)histogram.Quantile(0.95));
        var first = new Mean(new(l[low], a[low], b[low]));
        var second = new Mean(new(l[high], a[high], b[high]));
        for (var round = 0; round < Rounds; round++)
        {
            Assign(l, a, b, first, second, 0, count);
            if (round + 1 < Rounds)
            {
                first = first.Settle();
                second = second.Settle();
            }
        }

        var (larger, smaller) = first.Count >= second.Count ? (first, second) : (second, first);
        return new(
            larger.Color,
            smaller.Color,
            (double)smaller.Count / count,
            Math.Sqrt((larger.SquareSum + smaller.SquareSum) / count))
        {
            _bands = [.. Enumerable.Range(0, Bands).Select(band => BandOf(l, a, b, larger, smaller, band))],
        };
    }

    private static (Sums Larger, Sums Smaller) BandOf(float[] l, float[] a, float[] b, Mean larger, Mean smaller, int band)
    {
        var (one, two) = (new Mean(larger.Color), new Mean(smaller.Color));
        Assign(l, a, b, one, two, (int)((long)l.Length * band / Bands), (int)((long)l.Length * (band + 1) / Bands));
        return (one.Sums, two.Sums);
    }

    private static float[] Sample(Plane plane, int count)
    {
        var sample = new float[count];
        for (var i = 0; i < count; i++)
        {
            sample[i] = plane.Values[i * Stride];
        }

        return sample;
    }

    // Which mean is nearer is as good as random from pixel to pixel, so a branch would be guessed wrong half of the time: sums of
    // the first part are taken by multiplying with 0 or 1, and the second part is the rest.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Assign(float[] l, float[] a, float[] b, Mean first, Mean second, int from, int to)
    {
        var (near, rest) = (default(Sums), default(Sums));
        var (one, two) = (first.Color, second.Color);
        for (var i = from; i < to; i++)
        {
            var toFirst = SquareDistance(one, l[i], a[i], b[i]);
            var toSecond = SquareDistance(two, l[i], a[i], b[i]);
            var isFirst = toFirst <= toSecond ? 1.0 : 0.0;
            near.Add(isFirst, l[i], a[i], b[i], toFirst);
            rest.Add(1.0 - isFirst, l[i], a[i], b[i], toSecond);
        }

        first.Take(near);
        second.Take(rest);
    }

    private static float Key(float l, float a, float b) => l + (2.0f * MathF.Sqrt((a * a) + (b * b)));

    private static int Nearest(float[] keys, float key)
    {
        var (best, distance) = (0, float.MaxValue);
        for (var i = 0; i < keys.Length; i++)
        {
            var d = Math.Abs(keys[i] - key);
            if (d < distance)
            {
                (best, distance) = (i, d);
            }
        }

        return best;
    }

    private static double SquareDistance(LabColor color, double l, double a, double b) =>
        ((color.L - l) * (color.L - l)) + ((color.A - a) * (color.A - a)) + ((color.B - b) * (color.B - b));

    private struct Sums
    {
        internal double Count;
        internal double L;
        internal double A;
        internal double B;
        internal double Square;

        internal readonly LabColor Mean => new(L / Count, A / Count, B / Count);

        public static Sums operator +(Sums x, Sums y) => new()
        {
            Count = x.Count + y.Count,
            L = x.L + y.L,
            A = x.A + y.A,
            B = x.B + y.B,
            Square = x.Square + y.Square,
        };

        public static Sums operator -(Sums x, Sums y) => new()
        {
            Count = x.Count - y.Count,
            L = x.L - y.L,
            A = x.A - y.A,
            B = x.B - y.B,
            Square = x.Square - y.Square,
        };

        internal void Add(double weight, double l, double a, double b, double squareDistance)
        {
            Count += weight;
            L += weight * l;
            A += weight * a;
            B += weight * b;
            Square += weight * squareDistance;
        }
    }

    private sealed class Mean(LabColor color)
    {
        internal Sums Sums { get; private set; }

        internal LabColor Color { get; } = color;

        internal int Count => (int)Sums.Count;

        internal double SquareSum => Sums.Square;

        internal void Take(Sums sums) => Sums = sums;

        internal Mean Settle() => Count == 0 ? new(Color) : new(Sums.Mean);
    }
}
