namespace CoatScan.Metrics.Reflection;

/// <summary>Sub-pixel place of an edge along its length: where luminance passes the middle between its two sides.</summary>
/// <remarks>
/// <para>The levels of the sides are means of the outer sixths of each row, averaged over 25 rows, so that surroundings with
/// a slow gradient of their own do not shift the edge. The crossing is sought in the row smoothed by [1 4 6 4 1] / 16,
/// nearest to the rough place, by linear interpolation. Rows without one are filled in between their neighbors.</para>
/// <para>Of a symmetric blur in linear light the crossing is unbiased. Cost: O(samples of the strip).</para>
/// </remarks>
internal sealed class EdgeTrace
{
    private const int LevelRows = 12;

    private readonly EdgeStrip _strip;
    private readonly double[] _low;
    private readonly double[] _high;
    private readonly bool[] _isTraced;

    internal EdgeTrace(EdgeStrip strip)
    {
        _strip = strip;
        SidePx = Math.Max(2, strip.ReachPx / 3);
        _low = SideLevels(0);
        _high = SideLevels(strip.SamplesPerRow - SidePx);
        PositionsPx = new double[strip.Rows];
        _isTraced = new bool[strip.Rows];
        for (var row = 0; row < strip.Rows; row++)
        {
            if (strip.IsInside(row) && Crossing(row) is { } crossing)
            {
                PositionsPx[row] = strip.Line.RoughPx[row] + crossing;
                _isTraced[row] = true;
                TracedRows++;
            }
        }

        FillGaps();
    }

    /// <summary>Samples at either end of a row that tell the level of a side.</summary>
    internal int SidePx { get; }

    /// <summary>Distance of the edge from its line at each row, pixels, positive toward the bright side.</summary>
    internal double[] PositionsPx { get; }

    internal int TracedRows { get; }

    internal bool IsTraced(int row) => _isTraced[row];

    internal double Low(int row) => _low[row];

    internal double High(int row) => _high[row];

    private double[] SideLevels(int start)
    {
        var sums = new double[_strip.Rows + 1];
        var counts = new int[_strip.Rows + 1];
        for (var row = 0; row < _strip.Rows; row++)
        {
            var sum = 0.0;
            if (_strip.IsInside(row))
            {
                foreach (var value in _strip.Row(row).Slice(start, SidePx))
                {
                    sum += value;
                }
            }

            sums[row + 1] = sums[row] + (sum / SidePx);
            counts[row + 1] = counts[row] + (_strip.IsInside(row) ? 1 : 0);
        }

        var levels = new double[_strip.Rows];
        for (var row = 0; row < levels.Length; row++)
        {
            var (from, to) = (Math.Max(0, row - LevelRows), Math.Min(levels.Length, row + LevelRows + 1));
            levels[row] = (sums[to] - sums[from]) / Math.Max(1, counts[to] - counts[from]);
        }

        return levels;
    }

    // Distance from the rough place; null where the row does not rise through the middle.
    private double? Crossing(int row)
    {
        var middle = (float)(0.5 * (_low[row] + _high[row]));
        if (_high[row] <= _low[row])
        {
            return null;
        }

        // Outward from the rough place in turns, so that the first crossing found is the nearest.
        var values = _strip.Row(row);
        for (var away = 0; away < _strip.ReachPx - SidePx; away++)
        {
            if (CrossingAt(values, _strip.ReachPx + away, middle) is { } after)
            {
                return after - _strip.ReachPx;
            }

            if (CrossingAt(values, _strip.ReachPx - 1 - away, middle) is { } before)
            {
                return before - _strip.ReachPx;
            }
        }

        return null;
    }

    private static double? CrossingAt(ReadOnlySpan<float> values, int at, float middle)
    {
        var (here, next) = (Smooth(values, at) - middle, Smooth(values, at + 1) - middle);
        return here <= 0.0f && next > 0.0f ? at + (here / (here - (double)next)) : null;
    }

    private static float Smooth(ReadOnlySpan<float> values, int at) =>
        (0.0625f * (values[at - 2] + values[at + 2])) + (0.25f * (values[at - 1] + values[at + 1])) + (0.375f * values[at]);

    private void FillGaps()
    {
        var last = -1;
        for (var row = 0; row <= PositionsPx.Length; row++)
        {
            if (row < PositionsPx.Length && !_isTraced[row])
            {
                continue;
            }

            for (var gap = last + 1; gap < row; gap++)
            {
                PositionsPx[gap] = last < 0 && row == PositionsPx.Length ? 0.0
                    : last < 0 ? PositionsPx[row]
                    : row == PositionsPx.Length ? PositionsPx[last]
                    : PositionsPx[last] + ((PositionsPx[row] - PositionsPx[last]) * (gap - last) / (row - last));
            }

            last = row;
        }
    }
}
