using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Quality;

/// <summary>Counts samples in equal bins; samples outside the range go to the nearest bin.</summary>
internal sealed class ValueHistogram(float low, float high, int bins)
{
    private readonly int[] _counts = new int[bins];
    private readonly float _binsPerUnit = bins / (high - low);

    internal int Count { get; private set; }

    internal void Clear()
    {
        Array.Clear(_counts);
        Count = 0;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void Add(ReadOnlySpan<float> values)
    {
        var counts = _counts;
        var perUnit = _binsPerUnit;
        var start = low;
        foreach (var value in values)
        {
            counts[Math.Clamp((int)((value - start) * perUnit), 0, counts.Length - 1)]++;
        }

        Count += values.Length;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal void Add(float value)
    {
        var bin = (int)((value - low) * _binsPerUnit);
        _counts[Math.Clamp(bin, 0, _counts.Length - 1)]++;
        Count++;
    }

    /// <summary>Value below which this share of the samples lies, interpolated inside its bin; the low end if empty.</summary>
    internal double Quantile(double share)
    {
        var wanted = share * Count;
        var below = 0L;
        for (var bin = 0; bin < _counts.Length; bin++)
        {
            if (_counts[bin] > 0 && below + _counts[bin] >= wanted)
            {
                return low + ((bin + ((wanted - below) / _counts[bin])) / _binsPerUnit);
            }

            below += _counts[bin];
        }

        return low;
    }
}
