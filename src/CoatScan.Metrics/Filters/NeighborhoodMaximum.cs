using System.Numerics;

namespace CoatScan.Metrics.Filters;

/// <summary>Largest magnitude in the square around each pixel.</summary>
internal static class NeighborhoodMaximum
{
    internal static Plane Apply(Plane source, int radiusPx, PlaneScope scope)
    {
        var rows = scope.RentLike(source);
        var padded = new float[source.Width + (2 * radiusPx)];
        for (var y = 0; y < source.Height; y++)
        {
            source.Row(y).CopyTo(padded.AsSpan(radiusPx));
            var row = rows.Row(y);
            row.Clear();
            for (var k = 0; k <= 2 * radiusPx; k++)
            {
                Raise(row, padded.AsSpan(k, row.Length));
            }
        }

        var target = scope.RentLike(source);
        for (var y = 0; y < source.Height; y++)
        {
            target.Row(y).Clear();
            for (var k = Math.Max(0, y - radiusPx); k <= Math.Min(source.Height - 1, y + radiusPx); k++)
            {
                Raise(target.Row(y), rows.Row(k));
            }
        }

        scope.Return(rows);
        return target;
    }

    private static void Raise(Span<float> target, ReadOnlySpan<float> source)
    {
        var step = Vector<float>.Count;
        var x = 0;
        for (; x <= target.Length - step; x += step)
        {
            Vector.Max(new Vector<float>(target[x..]), Vector.Abs(new Vector<float>(source[x..]))).CopyTo(target[x..]);
        }

        for (; x < target.Length; x++)
        {
            target[x] = Math.Max(target[x], Math.Abs(source[x]));
        }
    }
}
