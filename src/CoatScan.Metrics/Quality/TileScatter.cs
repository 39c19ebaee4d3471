using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Quality;

/// <summary>How far a mean or a median over the panel depends on which part of it is looked at.</summary>
/// <param name="StandardError">Standard error of the mean of tile means, in the plane's unit.</param>
internal readonly record struct TileScatter(double StandardError)
{
    private const int TilesPerSide = 4;

    // Asymptotic ratio of the median's standard error to the mean's for normal values: root of pi / 2.
    private const double MedianRatio = 1.2533;

    internal double MeanHalfWidth => 1.96 * StandardError;

    internal double MedianHalfWidth => MedianRatio * MeanHalfWidth;

    /// <summary>Scatter of the means of 4 x 4 tiles over every second row and column that is not clipped; 0 for fewer than two tiles.</summary>
    internal static TileScatter Of(Plane plane, ReadOnlySpan<bool> clipped)
    {
        Span<double> sums = stackalloc double[TilesPerSide * TilesPerSide];
        Span<int> counts = stackalloc int[sums.Length];
        for (var y = 0; y < plane.Height; y += 2)
        {
            var row = plane.Row(y);
            var flags = clipped.Slice(y * plane.Width, plane.Width);
            var first = y * TilesPerSide / plane.Height * TilesPerSide;
            for (var tile = 0; tile < TilesPerSide; tile++)
            {
                var (start, end) = (tile * plane.Width / TilesPerSide, (tile + 1) * plane.Width / TilesPerSide);
                var (sumOfRow, count) = SumOfEverySecond(row[start..end], flags[start..end]);
                sums[first + tile] += sumOfRow;
                counts[first + tile] += count;
            }
        }

        var (sum, squares, tiles) = (0.0, 0.0, 0);
        for (var i = 0; i < sums.Length; i++)
        {
            if (counts[i] > 0)
            {
                var mean = sums[i] / counts[i];
                sum += mean;
                squares += mean * mean;
                tiles++;
            }
        }

        return tiles < 2
            ? default
            : new TileScatter(Math.Sqrt(Math.Max(0.0, (squares / tiles) - (sum / tiles * sum / tiles)) / (tiles - 1)));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static (double Sum, int Count) SumOfEverySecond(ReadOnlySpan<float> row, ReadOnlySpan<bool> clipped)
    {
        if (!clipped.Contains(true))
        {
            // Two sums side by side: each would wait for itself.
            var (even, odd) = (0.0, 0.0);
            var at = 0;
            for (; at + 2 < row.Length; at += 4)
            {
                even += row[at];
                odd += row[at + 2];
            }

            return (even + odd + (at < row.Length ? row[at] : 0.0), (row.Length + 1) / 2);
        }

        var (sum, count) = (0.0, 0);
        for (var x = 0; x < row.Length; x += 2)
        {
            sum += clipped[x] ? 0.0 : row[x];
            count += clipped[x] ? 0 : 1;
        }

        return (sum, count);
    }
}
