namespace CoatScan.Metrics.Texture;

/// <summary>How often two gray levels meet at a fixed step from each other: the co-occurrence matrix, counted both ways.</summary>
/// <remarks>
/// Source: Haralick, Shanmugam and Dinstein, IEEE Trans. SMC 3(6), 610-621, 1973. His angle of 45 degrees points up and to the right; steps here
/// are columns to the right and rows down, so that there is nothing to mistake.
/// </remarks>
internal sealed class Cooccurrence
{
    private readonly int[] _counts;
    private readonly int _levels;
    private long _total;

    internal Cooccurrence(int levels)
    {
        _levels = levels;
        _counts = new int[levels * levels];
    }

    /// <summary>Times that the first level met the second, in either order.</summary>
    internal int this[int first, int second] => _counts[(first * _levels) + second];

    /// <summary>Mean square of the difference of two levels, 0 or more; 0 where none met.</summary>
    internal double Contrast
    {
        get
        {
            var sum = 0.0;
            for (var i = 0; i < _counts.Length; i++)
            {
                var (first, second) = Math.DivRem(i, _levels);
                sum += (double)_counts[i] * (first - second) * (first - second);
            }

            return sum / Math.Max(1, _total);
        }
    }

    /// <summary>Correlation of two levels, [-1, 1]; 1 where there is but one level.</summary>
    internal double Correlation
    {
        get
        {
            var (sum, squares, products) = (0.0, 0.0, 0.0);
            for (var i = 0; i < _counts.Length; i++)
            {
                var (first, second) = Math.DivRem(i, _levels);
                sum += (double)_counts[i] * first;
                squares += (double)_counts[i] * first * first;
                products += (double)_counts[i] * first * second;
            }

            // Counted both ways, both levels have one mean and one variance.
            var total = Math.Max(1, _total);
            var mean = sum / total;
            var variance = (squares / total) - (mean * mean);
            return variance <= 0.0 ? 1.0 : ((products / total) - (mean * mean)) / variance;
        }
    }

    /// <summary>Adds all pairs of a rectangle of levels.</summary>
    /// <param name="levels">Levels row by row, each under the number of levels.</param>
    /// <param name="width">Columns.</param>
    /// <param name="stepX">Columns from the first to the second of a pair.</param>
    /// <param name="stepY">Rows from the first down to the second of a pair, 0 or more.</param>
    internal void Add(ReadOnlySpan<int> levels, int width, int stepX, int stepY)
    {
        var height = levels.Length / width;
        for (var y = 0; y < height - stepY; y++)
        {
            for (var x = Math.Max(0, -stepX); x < Math.Min(width, width - stepX); x++)
            {
                var (first, second) = (levels[(y * width) + x], levels[((y + stepY) * width) + x + stepX]);
                _counts[(first * _levels) + second]++;
                _counts[(second * _levels) + first]++;
                _total += 2;
            }
        }
    }
}
