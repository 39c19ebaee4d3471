namespace CoatScan.Metrics.Quality;

/// <summary>
/// How far tones of a photo bend from place to place, CIE L*, 0 or more: about 0 for one tone, a slow change of light or nothing but noise, in
/// which no edge, reflection or texture tells what was photographed.
/// </summary>
/// <remarks>
/// <para>Means of blocks of 16 x 16 px; at each block the larger of the second differences over two blocks to either side, along rows and along
/// columns, which are 0 on a slope. The value is the one that two in a hundred blocks exceed, so that a single seam is enough. What noise
/// alone would give is taken off: 3 standard deviations of such a difference, from the spread inside the blocks, as if pixels were
/// independent; fine texture, whose pixels are not, stays.</para>
/// <para>Null below 8 blocks a side. Cost: O(n). Deterministic. No source; standard statistics of means and differences.</para>
/// </remarks>
public static class TonalStructure
{
    private const int BlockPx = 16;
    private const int Reach = 2;
    private const int LeastBlocks = 8;
    private const double ExceedingShare = 0.02;
    private const double NoiseDeviations = 3;

    /// <summary>Measures a lightness plane; null if it is too small.</summary>
    public static double? Measure(Plane lightness)
    {
        ArgumentNullException.ThrowIfNull(lightness);
        var columns = lightness.Width / BlockPx;
        var rows = lightness.Height / BlockPx;
        if (columns < LeastBlocks || rows < LeastBlocks)
        {
            return null;
        }

        var means = new double[rows, columns];
        var spread = 0.0;
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var (mean, variance) = OfBlock(lightness, column * BlockPx, row * BlockPx);
                means[row, column] = mean;
                spread += variance / (rows * columns);
            }
        }

        var bends = new List<double>();
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var along = column >= Reach && column + Reach < columns
                    ? Math.Abs(means[row, column - Reach] - (2 * means[row, column]) + means[row, column + Reach])
                    : 0;
                var across = row >= Reach && row + Reach < rows
                    ? Math.Abs(means[row - Reach, column] - (2 * means[row, column]) + means[row + Reach, column])
                    : 0;
                bends.Add(Math.Max(along, across));
            }
        }

        bends.Sort();
        // A second difference has 1 + 4 + 1 times the variance of one mean.
        var noise = Math.Sqrt(6 * spread / (BlockPx * BlockPx));
        return Math.Max(0, bends[(int)((1 - ExceedingShare) * (bends.Count - 1))] - (NoiseDeviations * noise));
    }

    private static (double Mean, double Variance) OfBlock(Plane lightness, int left, int top)
    {
        double sum = 0, squares = 0;
        for (var y = top; y < top + BlockPx; y++)
        {
            foreach (var value in lightness.Row(y).Slice(left, BlockPx))
            {
                sum += value;
                squares += (double)value * value;
            }
        }

        var mean = sum / (BlockPx * BlockPx);
        return (mean, Math.Max(0, (squares / (BlockPx * BlockPx)) - (mean * mean)));
    }
}
