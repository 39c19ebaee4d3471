using CoatScan.Metrics.Color;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Zones;

/// <summary>The two colors that split a panel best, by two means in CIELAB.</summary>
/// <param name="First">Mean of the larger part.</param>
/// <param name="Second">Mean of the smaller part.</param>
/// <param name="SmallerShare">Share of the smaller part, [0, 0.5].</param>
/// <param name="Scatter">Root mean square distance of the pixels to their mean, Lab units.</param>
/// <remarks>
/// Means start at the pixels of the 5th and the 95th percentile along L* + 2 C* and settle within 12 rounds. Every third pixel
/// is used. Deterministic. Source: Lloyd's two-means, common practice.
/// </remarks>
internal sealed record TwoColors(LabColor First, LabColor Second, double SmallerShare, double Scatter)
{
    private const int Rounds = 12;
    private const int Stride = 3;

    /// <summary>Distance of the two means in CIELAB.</summary>
    internal double Distance => Math.Sqrt(SquareDistance(First, Second.L, Second.A, Second.B));

    internal static TwoColors Of(LabPlanes lab)
    {
        var (l, a, b) = (lab.Lightness.Values, lab.AStar.Values, lab.BStar.Values);
        var keys = new ValueHistogram(0.0f, 400.0f, 4000);
        var count = 0;
        for (var i = 0; i < l.Length; i += Stride)
        {
            keys.Add(Key(l[i], a[i], b[i]));
            count++;
        }

        var low = Nearest(lab, (float)keys.Quantile(0.05));
        var high = Nearest(lab, (float)keys.Quantile(0.95));
        var first = new Mean(new(l[low], a[low], b[low]));
        var second = new Mean(new(l[high], a[high], b[high]));
        for (var round = 0; round < Rounds; round++)
        {
            for (var i = 0; i < l.Length; i += Stride)
            {
                var toFirst = SquareDistance(first.Color, l[i], a[i], b[i]);
                var toSecond = SquareDistance(second.Color, l[i], a[i], b[i]);
                (toFirst <= toSecond ? first : second).Add(l[i], a[i], b[i], Math.Min(toFirst, toSecond));
            }

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
            Math.Sqrt((larger.SquareSum + smaller.SquareSum) / count));
    }

    private static float Key(float l, float a, float b) => l + (2.0f * MathF.Sqrt((a * a) + (b * b)));

    private static int Nearest(LabPlanes lab, float key)
    {
        var (best, distance) = (0, float.MaxValue);
        for (var i = 0; i < lab.Lightness.Values.Length; i += Stride)
        {
            var d = Math.Abs(Key(lab.Lightness.Values[i], lab.AStar.Values[i], lab.BStar.Values[i]) - key);
            (best, distance) = d < distance ? (i, d) : (best, distance);
        }

        return best;
    }

    private static double SquareDistance(LabColor color, double l, double a, double b) =>
        ((color.L - l) * (color.L - l)) + ((color.A - a) * (color.A - a)) + ((color.B - b) * (color.B - b));

    private sealed class Mean(LabColor color)
    {
        private double _l;
        private double _a;
        private double _b;

        internal LabColor Color { get; } = color;

        internal int Count { get; private set; }

        internal double SquareSum { get; private set; }

        internal void Add(double l, double a, double b, double squareDistance)
        {
            Count++;
            _l += l;
            _a += a;
            _b += b;
            SquareSum += squareDistance;
        }

        internal Mean Settle() => Count == 0 ? new(Color) : new(new(_l / Count, _a / Count, _b / Count));
    }
}
