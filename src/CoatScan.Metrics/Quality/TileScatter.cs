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
                var end = (tile + 1) * plane.Width / TilesPerSide;
                for (var x = tile * plane.Width / TilesPerSide; x < end; x += 2)
                {
                    if (!flags[x])
                    {
                        sums[first + tile] += row[x];
                        counts[first + tile]++;
                    }
                }
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
}
