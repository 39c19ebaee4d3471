using System.Numerics;
using System.Runtime.CompilerServices;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Marks;

/// <summary>What the paint itself is at each place: median of a plane in tiles, and the scatter around it.</summary>
/// <remarks>
/// <para>Medians of tiles are smoothed by the median of three by three tiles, so that a mark may even fill a tile, and
/// interpolated linearly between (and beyond) the tile centers. The scatter is 0.7413 of the interquartile range, the standard
/// deviation for normal scatter.</para>
/// </remarks>
internal sealed class LocalBackground
{
    private const int LeastTilePx = 24;
    private const int TilesOnLongSide = 16;
    private const int DenseTilePx = 64;

    private readonly int _across;
    private readonly int _down;
    private readonly double _tileWidth;
    private readonly double _tileHeight;
    private readonly float[] _median;
    private readonly float[] _scatter;

    internal LocalBackground(Plane plane, float low, float high)
    {
        TilePx = Math.Max(LeastTilePx, Math.Max(plane.Width, plane.Height) / TilesOnLongSide);
        _across = Math.Max(1, plane.Width / TilePx);
        _down = Math.Max(1, plane.Height / TilePx);
        _tileWidth = (double)plane.Width / _across;
        _tileHeight = (double)plane.Height / _down;
        var medians = new float[_across * _down];
        var scatters = new float[_across * _down];
        var histogram = new ValueHistogram(low, high, 1000);
        var stride = TilePx > DenseTilePx ? 2 : 1;
        for (var tile = 0; tile < medians.Length; tile++)
        {
            Collect(plane, tile % _across, tile / _across, stride, histogram);
            medians[tile] = (float)histogram.Quantile(0.5);
            scatters[tile] = (float)(0.7413 * (histogram.Quantile(0.75) - histogram.Quantile(0.25)));
        }

        _median = MedianOfNeighbors(medians);
        _scatter = MedianOfNeighbors(scatters);
    }

    /// <summary>Side of a tile, pixels: marks up to about this size stand out.</summary>
    internal int TilePx { get; }

    /// <summary>Background and scatter along one row.</summary>
    internal void FillRow(int y, Span<float> median, Span<float> scatter)
    {
        var (row, share) = Position(y, _tileHeight, _down);
        for (var column = 0; column < Math.Max(1, _across - 1); column++)
        {
            var start = column == 0 ? 0 : (int)Math.Ceiling(((column + 0.5) * _tileWidth) - 0.5);
            var end = column >= _across - 2 ? median.Length : (int)Math.Ceiling(((column + 1.5) * _tileWidth) - 0.5);
            FillSegment(_median, column, row, share, start, median[start..end]);
            FillSegment(_scatter, column, row, share, start, scatter[start..end]);
        }
    }

    /// <summary>Background at one pixel.</summary>
    internal float MedianAt(int x, int y)
    {
        var (row, down) = Position(y, _tileHeight, _down);
        var (column, across) = Position(x, _tileWidth, _across);
        return Interpolate(_median, column, across, row, down);
    }

    private static (int Index, float Share) Position(int pixel, double tile, int count)
    {
        if (count == 1)
        {
            return (0, 0.0f);
        }

        var position = ((pixel + 0.5) / tile) - 0.5;
        var index = Math.Clamp((int)Math.Floor(position), 0, count - 2);
        return (index, (float)(position - index));
    }

    // Linear between the two tile centers, so that a running sum would do; a product keeps rounding out.
    private void FillSegment(float[] grid, int column, int row, float down, int startX, Span<float> target)
    {
        var across = _across == 1 ? 0.0f : (float)(((startX + 0.5) / _tileWidth) - 0.5 - column);
        var first = Interpolate(grid, column, 0.0f, row, down);
        var slope = Interpolate(grid, column, 1.0f, row, down) - first;
        var step = _across == 1 ? 0.0f : (float)(slope / _tileWidth);
        FillRamp(target, first + (slope * across), step);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FillRamp(Span<float> target, float first, float step)
    {
        var positions = Vector<float>.Indices;
        var x = 0;
        for (; x <= target.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            (new Vector<float>(first) + (step * positions)).CopyTo(target[x..]);
            positions += new Vector<float>(Vector<float>.Count);
        }

        for (; x < target.Length; x++)
        {
            target[x] = first + (step * x);
        }
    }

    private float Interpolate(float[] grid, int column, float across, int row, float down)
    {
        var right = _across == 1 ? 0 : 1;
        var below = _down == 1 ? 0 : _across;
        var i = (row * _across) + column;
        var upper = grid[i] + (across * (grid[i + right] - grid[i]));
        var lower = grid[i + below] + (across * (grid[i + below + right] - grid[i + below]));
        return upper + (down * (lower - upper));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Collect(Plane plane, int column, int row, int stride, ValueHistogram histogram)
    {
        histogram.Clear();
        var (left, right) = ((int)(column * _tileWidth), (int)((column + 1) * _tileWidth));
        var (top, bottom) = ((int)(row * _tileHeight), (int)((row + 1) * _tileHeight));
        for (var y = top; y < bottom; y += stride)
        {
            var values = plane.Row(y);
            for (var x = left; x < right; x += stride)
            {
                histogram.Add(values[x]);
            }
        }
    }

    private float[] MedianOfNeighbors(float[] grid)
    {
        var result = new float[grid.Length];
        var neighbors = new List<float>(9);
        for (var tile = 0; tile < grid.Length; tile++)
        {
            neighbors.Clear();
            var (column, row) = (tile % _across, tile / _across);
            for (var y = Math.Max(0, row - 1); y <= Math.Min(_down - 1, row + 1); y++)
            {
                for (var x = Math.Max(0, column - 1); x <= Math.Min(_across - 1, column + 1); x++)
                {
                    neighbors.Add(grid[(y * _across) + x]);
                }
            }

            neighbors.Sort();
            result[tile] = neighbors.Count % 2 == 1
                ? neighbors[neighbors.Count / 2]
                : 0.5f * (neighbors[neighbors.Count / 2] + neighbors[(neighbors.Count / 2) - 1]);
        }

        return result;
    }
}
