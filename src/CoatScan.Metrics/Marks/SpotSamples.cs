using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Marks;

/// <summary>Samples of a plane on the circles around a seed; what is no paint is left out.</summary>
/// <remarks>Seeds come in few sizes, so that the places of a size are worked out once.</remarks>
/// <param name="lightness">CIE L*.</param>
/// <param name="covered">One flag a pixel that is no paint: clipped, or in a spot that was chosen.</param>
internal sealed class SpotSamples(Plane lightness, bool[] covered)
{
    /// <summary>Fewer than these say nothing of the paint.</summary>
    internal const int Least = 10;

    private const int MostSizesKept = 64;

    private readonly Dictionary<float, ProbePlaces> _placesOfSize = [];
    private readonly ShortRanks _ranks = new(ProbePlaces.Samples);
    private readonly float[] _values = new float[ProbePlaces.PaddedSamples];
    private readonly float[] _seenXs = new float[ProbePlaces.PaddedSamples];
    private readonly float[] _seenYs = new float[ProbePlaces.PaddedSamples];

    /// <summary>The seed that was looked at last.</summary>
    internal SpotSeed Seed { get; private set; }

    /// <summary>Samples around it.</summary>
    internal int Count { get; private set; }

    /// <summary>The samples, padded with NaN to whole vectors.</summary>
    internal float[] Values => _values;

    /// <summary>Their columns, pixels from the seed.</summary>
    internal float[] Xs { get; private set; } = [];

    /// <summary>Their rows, pixels from the seed.</summary>
    internal float[] Ys { get; private set; } = [];

    /// <summary>What stands at a tenth, the half and nine tenths of them; of an earlier look where there are fewer than <see cref="Least"/>.</summary>
    internal (float Low, float Median, float High) Quantiles { get; private set; }

    /// <summary>Samples the paint around a seed.</summary>
    /// <returns>The mean of its core, which is the disk of half the radius.</returns>
    internal float Look(SpotSeed seed)
    {
        var places = PlacesOf(seed.RadiusPx);
        Seed = seed;
        var isInside = seed.X >= places.ReachPx && seed.Y >= places.ReachPx
            && seed.X + places.ReachPx < lightness.Width && seed.Y + places.ReachPx < lightness.Height;
        Count = isInside ? SampleInside(places, (seed.Y * lightness.Width) + seed.X) : SampleAtFrame(places);
        _values.AsSpan(Count).Fill(float.NaN);
        if (Count >= Least)
        {
            _ranks.Rank(_values.AsSpan(0, Count));
            Quantiles = (_ranks.At(Count / 10), _ranks.At(Count / 2), _ranks.At((9 * Count / 10) - 1));
        }

        return isInside ? CoreInside(places, (seed.Y * lightness.Width) + seed.X) : CoreAtFrame(places);
    }

    /// <summary>The mean of the samples.</summary>
    internal double Mean()
    {
        var sum = 0.0;
        for (var i = 0; i < Count; i++)
        {
            sum += _values[i];
        }

        return sum / Count;
    }

    private ProbePlaces PlacesOf(float radiusPx)
    {
        if (!_placesOfSize.TryGetValue(radiusPx, out var places))
        {
            places = new ProbePlaces(radiusPx, lightness.Width);
            if (_placesOfSize.Count < MostSizesKept)
            {
                _placesOfSize.Add(radiusPx, places);
            }
        }

        return places;
    }

    // Most seeds see all of their places.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private int SampleInside(ProbePlaces places, int center)
    {
        // All places lie inside of the plane.
        var (offsets, hidden, samples) = (places.Offsets, covered, _values);
        ref var middle = ref lightness.Values[center];
        ref var isMiddleHidden = ref hidden[center];
        var isHidden = false;
        for (var i = 0; i < offsets.Length; i++)
        {
            isHidden |= Unsafe.Add(ref isMiddleHidden, offsets[i]);
            samples[i] = Unsafe.Add(ref middle, offsets[i]);
        }

        (Xs, Ys) = (places.Xs, places.Ys);
        if (!isHidden)
        {
            return offsets.Length;
        }

        var count = 0;
        for (var i = 0; i < offsets.Length; i++)
        {
            _seenXs[count] = places.Xs[i];
            _seenYs[count] = places.Ys[i];
            samples[count] = samples[i];
            count += hidden[center + offsets[i]] ? 0 : 1;
        }

        (Xs, Ys) = (_seenXs, _seenYs);
        return count;
    }

    private int SampleAtFrame(ProbePlaces places)
    {
        var count = 0;
        foreach (var (dx, dy) in places.Places)
        {
            var (x, y) = (Seed.X + dx, Seed.Y + dy);
            if (lightness.Contains(x, y) && !covered[(y * lightness.Width) + x])
            {
                _values[count] = lightness[x, y];
                (_seenXs[count], _seenYs[count]) = (dx, dy);
                count++;
            }
        }

        (Xs, Ys) = (_seenXs, _seenYs);
        return count;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private float CoreInside(ProbePlaces places, int center)
    {
        var (sum, values) = (0.0, lightness.Values);
        foreach (var offset in places.CoreOffsets)
        {
            sum += values[center + offset];
        }

        return (float)(sum / places.CoreOffsets.Length);
    }

    private float CoreAtFrame(ProbePlaces places)
    {
        var (sum, count) = (0.0, 0);
        foreach (var (dx, dy) in places.Core)
        {
            var (x, y) = (Seed.X + dx, Seed.Y + dy);
            if (lightness.Contains(x, y))
            {
                sum += lightness[x, y];
                count++;
            }
        }

        return (float)(sum / count);
    }
}
