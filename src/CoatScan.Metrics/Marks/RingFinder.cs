using System.Numerics;
using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Marks;

/// <summary>Finds rings: a closed rim darker or brighter than the paint, with paint inside and outside.</summary>
/// <remarks>
/// <para>The middle of a ring answers a blob filter with the opposite sign. From there 24 rays are followed out to 2.6 radii. It
/// is a ring if their mean profile leaves the core by at least 3 L* and comes back by half of that farther out, and if at least
/// 20 rays do so too, at about the same distance. What the rim encloses counts as the ring's area.</para>
/// <para>Source: the limits are our own; rings as the mark that dried drops leave: common practice.</para>
/// </remarks>
internal sealed class RingFinder(Plane lightness, bool[] clipped)
{
    private const int Directions = RayDirections.Count;
    private const int FirstRays = 8;
    private const float SlackOfFirst = 0.7f;
    private const float LeastContrast = 3.0f;
    private const float LeastRadiusPx = 2.5f;
    private const double LeastStrength = 1.2;
    private const int LeastRays = 20;
    private const int Steps = RayPlaces.Steps;

    private readonly float[] _profiles = new float[Directions * Steps];
    private readonly float[] _mean = new float[Steps];
    private readonly Dictionary<float, RayPlaces> _placesOfSize = [];
    private readonly FlaggedTiles _clippedTiles = new(clipped, lightness.Width, lightness.Height);
    private readonly SeedGrid _grid = new(lightness.Width, lightness.Height);
    private readonly List<int> _near = [];

    /// <summary>Rings among the seeds, none of which lies in one of a stronger seed. Takes away the seeds that a ring holds.</summary>
    /// <remarks>Every seed is tested, in the order of the list: neighbors in the plane, which are in the processor's cache, best come together.</remarks>
    internal List<Ring> TakeFrom(List<SpotSeed> seeds)
    {
        var found = new Dictionary<SpotSeed, Ring>();
        foreach (var seed in seeds)
        {
            if (seed.Strength >= LeastStrength && seed.RadiusPx >= LeastRadiusPx && Test(seed) is { } ring)
            {
                found[seed] = ring;
            }
        }

        var strongest = found.Keys.ToList();
        SpotSelection.Sort(strongest);
        var rings = new List<Ring>();
        foreach (var seed in strongest)
        {
            if (!IsHeld(seed, rings))
            {
                _grid.Add(rings.Count, seed with { RadiusPx = found[seed].ReachPx });
                rings.Add(found[seed]);
            }
        }

        if (rings.Count > 0)
        {
            seeds.RemoveAll(seed => IsHeld(seed, rings));
        }

        return rings;
    }

    private bool IsHeld(SpotSeed seed, List<Ring> rings)
    {
        _grid.Near(seed, 1.0, _near);
        foreach (var i in _near)
        {
            if (rings[i].Holds(seed))
            {
                return true;
            }
        }

        return false;
    }

    private Ring? Test(SpotSeed seed)
    {
        if (!_placesOfSize.TryGetValue(seed.RadiusPx, out var rays))
        {
            _placesOfSize[seed.RadiusPx] = rays = new RayPlaces(seed.RadiusPx, lightness.Width);
        }

        // Eight rays show most seeds to be none; noise may take a little off their mean.
        return IsLikely(seed, rays, Directions / FirstRays, SlackOfFirst * LeastContrast)
            && IsLikely(seed, rays, 1, LeastContrast)
            ? Measure(seed, rays.StepPx, rays.Count)
            : null;
    }

    // The rim stands out from the core with the opposite sign of the seed.
    private bool IsLikely(SpotSeed seed, RayPlaces rays, int stride, float leastContrast)
    {
        if (!Sample(seed, rays, stride))
        {
            return false;
        }

        var core = Core();
        var contrast = Strongest(core, seed.Sign, rays.Count);
        return contrast >= leastContrast && OuterEdge(_mean, core, seed.Sign, 0.5f * contrast, rays.Count) > 0;
    }

    private float Core() => (_mean[0] + _mean[1] + _mean[2]) / 3.0f;

    // False where a ray leaves the photo or meets what is clipped.
    private bool Sample(SpotSeed seed, RayPlaces rays, int stride)
    {
        var (reach, width) = (rays.ReachPx, lightness.Width);
        var isInside = seed.X >= reach && seed.Y >= reach && seed.X + reach < width && seed.Y + reach < lightness.Height;
        if ((!isInside || _clippedTiles.MayMeet(seed.X - reach, seed.Y - reach, seed.X + reach, seed.Y + reach))
            && !IsSeenWhole(seed, rays, stride))
        {
            return false;
        }

        Array.Clear(_mean);
        for (var direction = 0; direction < Directions; direction += stride)
        {
            var first = direction * Steps;
            var profile = _profiles.AsSpan(first, rays.Count);
            Read(lightness.Values, (seed.Y * width) + seed.X, rays.Offsets.AsSpan(first, rays.Count), profile);
            AddShare(profile, stride, _mean);
        }

        return true;
    }

    private bool IsSeenWhole(SpotSeed seed, RayPlaces rays, int stride)
    {
        for (var direction = 0; direction < Directions; direction += stride)
        {
            foreach (var (dx, dy) in rays.Places.AsSpan(direction * Steps, rays.Count))
            {
                var (x, y) = (seed.X + dx, seed.Y + dy);
                if ((uint)x >= (uint)lightness.Width || (uint)y >= (uint)lightness.Height || clipped[(y * lightness.Width) + x])
                {
                    return false;
                }
            }
        }

        return true;
    }

    // All places lie inside of the plane.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Read(float[] values, int center, ReadOnlySpan<int> offsets, Span<float> profile)
    {
        ref var middle = ref values[center];
        for (var i = 0; i < profile.Length; i++)
        {
            profile[i] = Unsafe.Add(ref middle, offsets[i]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddShare(ReadOnlySpan<float> profile, float weight, Span<float> mean)
    {
        var i = 0;
        for (; i <= profile.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            var share = weight * new Vector<float>(profile[i..]) / new Vector<float>(Directions);
            (new Vector<float>(mean[i..]) + share).CopyTo(mean[i..]);
        }

        for (; i < profile.Length; i++)
        {
            mean[i] += weight * profile[i] / Directions;
        }
    }

    private float Strongest(float core, float sign, int steps)
    {
        var contrast = 0.0f;
        for (var i = 1; i < steps; i++)
        {
            contrast = Math.Max(contrast, sign * (core - _mean[i]));
        }

        return contrast;
    }

    private Ring? Measure(SpotSeed seed, float step, int steps)
    {
        var core = Core();
        var contrast = Strongest(core, seed.Sign, steps);
        var outer = OuterEdge(_mean, core, seed.Sign, 0.5f * contrast, steps);
        var slack = Math.Max(2, outer / 4);
        var (rays, squares, reach) = (0, 0.0, 0.0f);
        for (var direction = 0; direction < Directions; direction++)
        {
            var edge = OuterEdge(_profiles.AsSpan(direction * Steps, Steps), core, seed.Sign, 0.5f * contrast, steps);
            if (edge > 0 && Math.Abs(edge - outer) <= slack)
            {
                rays++;
                var radius = (edge - 0.5f) * step;
                squares += radius * radius;
                reach = Math.Max(reach, radius);
            }
        }

        return rays < LeastRays
            ? null
            : new(seed.X, seed.Y, (float)Math.Sqrt(squares / rays), reach, -seed.Sign * contrast);
    }

    // First step behind the rim; 0 where there is no rim, or no end to it, or no paint inside.
    private static int OuterEdge(ReadOnlySpan<float> profile, float core, float sign, float half, int steps)
    {
        var isRim = false;
        for (var i = 0; i < steps; i++)
        {
            var stands = sign * (core - profile[i]) >= half;
            if (isRim && !stands)
            {
                return i;
            }

            isRim |= stands;
            if (isRim && i < 2)
            {
                return 0;
            }
        }

        return 0;
    }
}
