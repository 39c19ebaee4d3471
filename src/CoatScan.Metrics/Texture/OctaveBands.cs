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
            var smooth = Smooth(source, SigmaBetween(FirstCutoffPx, 2.0 * FirstCutoffPx));
            readings.Add(ReadTiles(source, smooth, level, FirstCutoffPx));
            if (level + 1 == _levels.Count)
            {
                _levels.Add(Halve(smooth));
            }

            _scope.Return(smooth);
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
            var smooth = Smooth(start, SigmaBetween(cutoff, 2.0 * cutoff));
            readings.Add(ReadTiles(start, smooth, level + i, cutoff));
            start = Halve(smooth);
            _scope.Return(smooth);
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
            var smooth = Smooth(_levels[^1], SigmaBetween(FirstCutoffPx, 2.0 * FirstCutoffPx));
            _levels.Add(Halve(smooth));
            _scope.Return(smooth);
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

    private Plane Halve(Plane plane)
    {
        var half = _scope.Rent((plane.Width + 1) / 2, (plane.Height + 1) / 2);
        for (var y = 0; y < half.Height; y++)
        {
            var from = plane.Row(2 * y);
            var to = half.Row(y);
            for (var x = 0; x < to.Length; x++)
            {
                to[x] = from[2 * x];
            }
        }

        return half;
    }

    private BandReading? ReadTiles(Plane fine, Plane smooth, int level, double cutoffPx)
    {
        var across = Math.Max(1, fine.Width / TilePx);
        var down = Math.Max(1, fine.Height / TilePx);
        var squares = new List<double>(across * down);
        for (var tileY = 0; tileY < down; tileY++)
        {
            var (top, bottom) = Bounds(tileY, down, fine.Height);
            for (var tileX = 0; tileX < across; tileX++)
            {
                var (left, right) = Bounds(tileX, across, fine.Width);
                if (ClippedShare(left, top, right, bottom, level) <= LargestClippedShare)
                {
                    squares.Add(MeanSquare(fine, smooth, left, top, right, bottom));
                }
            }
        }

        return squares.Count == 0 ? null : Summarize(squares, cutoffPx * (1 << level));
    }

    private static (int Start, int End) Bounds(int index, int count, int length) =>
        ((int)((long)index * length / count), (int)((long)(index + 1) * length / count));

    private static double MeanSquare(Plane fine, Plane smooth, int left, int top, int right, int bottom)
    {
        var sum = 0.0;
        for (var y = top; y < bottom; y++)
        {
            sum += SquaredDistance(fine.Row(y)[left..right], smooth.Row(y)[left..right]);
        }

        return sum / ((right - left) * (double)(bottom - top));
    }

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
