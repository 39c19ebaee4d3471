using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Marks;

/// <summary>How much the responses of a blob filter scatter in each part of a panel.</summary>
/// <remarks>
/// The lower quartile of the magnitudes over 0.3186, which is the standard deviation for normal scatter: spots may fill much of
/// a tile before they raise it. On large planes every fourth sample of every second row is taken.
/// </remarks>
internal sealed class ResponseScatter
{
    private const int TilesOnLongSide = 16;
    private const int LeastTilePx = 24;
    private const int DensePx = 512;
    private const int Bins = 256;
    private const float BinsPerUnit = 16.0f;
    private const double QuartileOverDeviation = 0.3186;

    private readonly int _tilePx;
    private readonly int _across;
    private readonly int[] _counts;
    private readonly double[] _deviations;
    private readonly int _rowStep;
    private readonly int _columnStep;

    internal ResponseScatter(int width, int height)
    {
        _tilePx = Math.Max(LeastTilePx, Math.Max(width, height) / TilesOnLongSide);
        _across = (width + _tilePx - 1) / _tilePx;
        _counts = new int[_across * ((height + _tilePx - 1) / _tilePx) * Bins];
        _deviations = new double[_counts.Length / Bins];
        Array.Fill(_deviations, double.NaN);
        (_rowStep, _columnStep) = Math.Max(width, height) > DensePx ? (2, 4) : (1, 1);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void Add(int y, ReadOnlySpan<float> responses)
    {
        if (y % _rowStep != 0)
        {
            return;
        }

        var first = y / _tilePx * _across;
        for (var tile = 0; tile < _across; tile++)
        {
            var counts = _counts.AsSpan((first + tile) * Bins, Bins);
            var end = Math.Min((tile + 1) * _tilePx, responses.Length);
            for (var x = tile * _tilePx; x < end; x += _columnStep)
            {
                counts[Math.Min((int)(BinsPerUnit * Math.Abs(responses[x])), Bins - 1)]++;
            }
        }
    }

    /// <summary>Standard deviation of the responses around a pixel, L*; to be asked for when all rows are added.</summary>
    internal double At(int x, int y)
    {
        var tile = (y / _tilePx * _across) + (x / _tilePx);
        if (double.IsNaN(_deviations[tile]))
        {
            _deviations[tile] = DeviationOf(_counts.AsSpan(tile * Bins, Bins));
        }

        return _deviations[tile];
    }

    private static double DeviationOf(ReadOnlySpan<int> counts)
    {
        var total = 0L;
        foreach (var count in counts)
        {
            total += count;
        }

        var below = 0L;
        for (var bin = 0; bin < Bins; bin++)
        {
            if (below + counts[bin] >= 0.25 * total && counts[bin] > 0)
            {
                return (bin + (((0.25 * total) - below) / counts[bin])) / BinsPerUnit / QuartileOverDeviation;
            }

            below += counts[bin];
        }

        return 0.0;
    }
}
