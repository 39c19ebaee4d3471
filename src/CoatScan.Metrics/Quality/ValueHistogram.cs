using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Quality;

/// <summary>Counts samples in equal bins; samples outside the range go to the nearest bin.</summary>
internal sealed class ValueHistogram(float low, float high, int bins)
{
    private readonly int[] _counts = new int[bins];
    private readonly int[] _others = new int[bins];
    private readonly float _binsPerUnit = bins / (high - low);

    internal int Count { get; private set; }

    internal void Clear()
    {
        Array.Clear(_counts);
        Array.Clear(_others);
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

    /// <summary>Counts every second sample of a row but those that are flagged.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void AddEverySecond(ReadOnlySpan<float> row, ReadOnlySpan<bool> flags)
    {
        // Neighbors often share a bin, and one count would wait for the one before: two lists take turns.
        var (counts, others, perUnit, start) = (_counts, _others, _binsPerUnit, low);
        var count = 0;
        for (var x = 0; x < row.Length; x += 2)
        {
            if (!flags[x])
            {
                counts[Math.Clamp((int)((row[x] - start) * perUnit), 0, counts.Length - 1)]++;
                (counts, others) = (others, counts);
                count++;
            }
        }

        Count += count;
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
            var count = _counts[bin] + _others[bin];
            if (count > 0 && below + count >= wanted)
            {
                return low + ((bin + ((wanted - below) / count)) / _binsPerUnit);
            }

            below += count;
        }

        return low;
    }
}
