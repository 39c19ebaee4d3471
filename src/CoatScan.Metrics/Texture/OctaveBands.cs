using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Texture;

/// <summary>Splits a plane into octave bands of wavelength and gives each band's root mean square, 0 or more.</summary>
/// <remarks>
/// <para>A band from L1 to L2 = 2 L1 is the low-pass of cutoff L1 minus the low-pass of cutoff L2, so that a sine of
/// wavelength L passes with <see cref="Gain"/>: at most 0.4725, at L = 1.2247 L1. Neighboring bands add up without a
/// gap.</para>
/// <para>After each band the low-pass is halved in size: the same cutoff in half as many pixels. A quarter of the samples of
/// each level costs a third more than the first level alone.</para>
/// <para>Squares are averaged in tiles of 32 x 32 samples of the level; the median over tiles keeps a few marks, edges or
/// letters from posing as texture of the whole panel.</para>
/// <para>Source: ISO 16610-21:2011 (Gaussian filter, transmission 2^-(Lc/L)^2).</para>
/// </remarks>
internal sealed class OctaveBands
{
    private const double FirstCutoffPx = 4.0;
    private const int TilePx = 32;
    private const double LargestClippedShare = 0.02;

    private readonly Plane _source;
    private readonly List<Plane> _levels = [];
    private readonly bool[] _clipped;
    private readonly bool[] _rowIsClipped;
    private readonly int _width;
    private readonly PlaneScope _scope;

    /// <summary>Bands of a plane: low-passes at 4, 8, 16 ... px are made when first asked for and kept.</summary>
    /// <param name="plane">Plane to split; must stay as it is as long as this object is used.</param>
    /// <param name="clipped">One flag a pixel: tiles with more than 2 % of them are left out.</param>
    /// <param name="scope">Lends the scratch planes; must outlive this object.</param>
    internal OctaveBands(Plane plane, bool[] clipped, PlaneScope scope)
    {
        ArgumentNullException.ThrowIfNull(plane);
        ArgumentNullException.ThrowIfNull(clipped);
        if (clipped.Length != plane.Values.Length)
        {
            throw new ArgumentException($"{clipped.Length} flags for {plane.Values.Length} pixels.", nameof(clipped));
        }

        _source = plane;
        _clipped = clipped;
        _width = plane.Width;
        _rowIsClipped = ClippedRows(clipped, plane.Width);
        _scope = scope;
    }

    /// <summary>Share of a sine's amplitude that the band from L1 to 2 L1 passes, [0, 0.4725].</summary>
    internal static double Gain(double shortest, double wavelength) =>
        GaussianFilter.Gain(shortest, wavelength) - GaussianFilter.Gain(2.0 * shortest, wavelength);

    /// <summary>Bands of wavelengths 4-8, 8-16 ... px: as many as asked for; null where every tile is clipped.</summary>
    internal IReadOnlyList<BandReading?> MeasurePixelBands(int count)
    {
        var readings = new List<BandReading?>();
        for (var level = 0; level < count; level++)
        {
            var source = Level(level);
            var next = level + 1 == _levels.Count && level + 1 < count ? HalfOf(source) : null;
            readings.Add(Read(source, next, level, FirstCutoffPx));
            if (next is not null)
            {
                _levels.Add(next);
            }
        }

        return readings;
    }

    /// <summary>Bands from any shortest wavelength, at least 4 px, upward.</summary>
    internal IReadOnlyList<BandReading?> MeasureBands(double shortestPx, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(shortestPx, FirstCutoffPx);
        var level = (int)Math.Floor(Math.Log2(shortestPx / FirstCutoffPx));
        var cutoff = shortestPx / (1 << level);
        var start = level == 0 ? Smooth(_source, GaussianFilter.SigmaOfCutoff(cutoff))
            : cutoff > FirstCutoffPx * 1.0001 ? Smooth(Level(level), SigmaBetween(FirstCutoffPx, cutoff))
            : Level(level);
        var readings = new List<BandReading?>();
        for (var i = 0; i < count; i++)
        {
            var next = i + 1 < count ? HalfOf(start) : null;
            readings.Add(Read(start, next, level + i, cutoff));
            start = next ?? start;
        }

        return readings;
    }

    /// <summary>The low-pass of cutoff 4 x 2^level px, in pixels of that level.</summary>
    internal Plane Level(int level)
    {
        if (_levels.Count == 0)
        {
            _levels.Add(Smooth(_source, GaussianFilter.SigmaOfCutoff(FirstCutoffPx)));
        }

        while (_levels.Count <= level)
        {
            var half = HalfOf(_levels[^1]);
            GaussianFilter.Stream(
                _levels[^1], SigmaBetween(FirstCutoffPx, 2.0 * FirstCutoffPx), (y, row) => KeepEverySecond(y, row, half));
            _levels.Add(half);
        }

        return _levels[level];
    }

    // Variances of Gaussians add, and so do squared cutoffs.
    private static double SigmaBetween(double cutoff, double wanted) =>
        GaussianFilter.SigmaOfCutoff(Math.Sqrt((wanted * wanted) - (cutoff * cutoff)));

    private Plane Smooth(Plane plane, double sigmaPx)
    {
        var target = _scope.RentLike(plane);
        GaussianFilter.Apply(plane, target, sigmaPx);
        return target;
    }

    private Plane HalfOf(Plane plane) => _scope.Rent((plane.Width + 1) / 2, (plane.Height + 1) / 2);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void KeepEverySecond(int y, ReadOnlySpan<float> row, Plane half)
    {
        if (y % 2 == 0)
        {
            var to = half.Row(y / 2);
            for (var x = 0; x < to.Length; x++)
            {
                to[x] = row[2 * x];
            }
        }
    }

    // The band is what the next low-pass takes off; that one is looked at row by row, and every second pixel of every second row of it is kept if
    // there is a plane for it.
    private BandReading? Read(Plane fine, Plane? half, int level, double cutoffPx)
    {
        var across = Math.Max(1, fine.Width / TilePx);
        var down = Math.Max(1, fine.Height / TilePx);
        var sums = new double[across * down];
        GaussianFilter.Stream(fine, SigmaBetween(cutoffPx, 2.0 * cutoffPx), Take);
        var squares = new List<double>(sums.Length);
        for (var tile = 0; tile < sums.Length; tile++)
        {
            var (top, bottom) = Bounds(tile / across, down, fine.Height);
            var (left, right) = Bounds(tile % across, across, fine.Width);
            if (ClippedShare(left, top, right, bottom, level) <= LargestClippedShare)
            {
                squares.Add(sums[tile] / ((right - left) * (double)(bottom - top)));
            }
        }

        return squares.Count == 0 ? null : Summarize(squares, cutoffPx * (1 << level));

        void Take(int y, ReadOnlySpan<float> smooth)
        {
            // The tile whose rows begin at or before this one: see Bounds.
            var tiles = sums.AsSpan((int)((((long)(y + 1) * down) - 1) / fine.Height) * across, across);
            AddSquares(fine.Row(y), smooth, tiles);
            if (half is not null)
            {
                KeepEverySecond(y, smooth, half);
            }
        }
    }

    private static void AddSquares(ReadOnlySpan<float> fine, ReadOnlySpan<float> smooth, Span<double> tiles)
    {
        for (var tile = 0; tile < tiles.Length; tile++)
        {
            var (left, right) = Bounds(tile, tiles.Length, fine.Length);
            tiles[tile] += SquaredDistance(fine[left..right], smooth[left..right]);
        }
    }

    private static (int Start, int End) Bounds(int index, int count, int length) =>
        ((int)((long)index * length / count), (int)((long)(index + 1) * length / count));

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double SquaredDistance(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        ref var first = ref MemoryMarshal.GetReference(a);
        ref var second = ref MemoryMarshal.GetReference(b);
        var squares = Vector<float>.Zero;
        var x = 0;
        for (; x <= a.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            var differences = Vector.LoadUnsafe(ref first, (nuint)x) - Vector.LoadUnsafe(ref second, (nuint)x);
            squares += differences * differences;
        }

        double sum = Vector.Sum(squares);
        for (; x < a.Length; x++)
        {
            sum += (a[x] - b[x]) * (a[x] - b[x]);
        }

        return sum;
    }

    private double ClippedShare(int left, int top, int right, int bottom, int level)
    {
        var height = _clipped.Length / _width;
        var (x0, x1) = (Math.Min(left << level, _width), Math.Min(right << level, _width));
        var (y0, y1) = (Math.Min(top << level, height), Math.Min(bottom << level, height));
        long count = 0;
        for (var y = y0; y < y1; y++)
        {
            if (_rowIsClipped[y])
            {
                count += _clipped.AsSpan((y * _width) + x0, x1 - x0).Count(true);
            }
        }

        return (double)count / Math.Max(1, (x1 - x0) * (y1 - y0));
    }

    // Most rows of most photos hold no clipped pixel; those need not be looked at again for every band.
    private static bool[] ClippedRows(bool[] clipped, int width)
    {
        var rows = new bool[clipped.Length / width];
        for (var y = 0; y < rows.Length; y++)
        {
            rows[y] = clipped.AsSpan(y * width, width).Contains(true);
        }

        return rows;
    }

    private static BandReading Summarize(List<double> squares, double shortestPx)
    {
        var sum = 0.0;
        foreach (var square in squares)
        {
            sum += square;
        }

        squares.Sort();
        var median = Math.Sqrt(Percentile(squares, 0.5));
        var quartiles = Math.Sqrt(Percentile(squares, 0.75)) - Math.Sqrt(Percentile(squares, 0.25));

        // Normal scatter: sigma = 0.7413 interquartile range; a median scatters 1.2533 times as much as a mean.
        var error = 1.2533 * 0.7413 * quartiles / Math.Sqrt(squares.Count);
        return new(
            shortestPx,
            median,
            Math.Sqrt(sum / squares.Count),
            Math.Sqrt(Percentile(squares, 0.9)),
            error,
            squares.Count);
    }

    private static double Percentile(List<double> sorted, double share)
    {
        var position = share * (sorted.Count - 1);
        var below = (int)position;
        var above = Math.Min(below + 1, sorted.Count - 1);
        return sorted[below] + ((position - below) * (sorted[above] - sorted[below]));
    }
}
