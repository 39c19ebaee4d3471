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
    private const int Directions = SpotProbe.Directions;
    private const int FirstRays = 8;
    private const float SlackOfFirst = 0.7f;
    private const float LeastContrast = 3.0f;
    private const float LeastRadiusPx = 2.5f;
    private const double LeastStrength = 1.2;
    private const int LeastRays = 20;
    private const int Steps = 40;
    private const float ReachOverRadius = 2.6f;

    private readonly float[] _profiles = new float[Directions * Steps];
    private readonly float[] _mean = new float[Steps];

    /// <summary>Rings among the seeds, which must come strongest first; none of them lies in another.</summary>
    internal List<Ring> Find(List<SpotSeed> seeds)
    {
        var rings = new List<Ring>();
        foreach (var seed in seeds)
        {
            if (seed.Strength >= LeastStrength && seed.RadiusPx >= LeastRadiusPx && !IsHeld(seed, rings)
                && Test(seed) is { } ring)
            {
                rings.Add(ring);
            }
        }

        return rings;
    }

    private static bool IsHeld(SpotSeed seed, List<Ring> rings)
    {
        foreach (var ring in rings)
        {
            if (ring.Holds(seed))
            {
                return true;
            }
        }

        return false;
    }

    private Ring? Test(SpotSeed seed)
    {
        var step = Math.Max(0.5f, ReachOverRadius * seed.RadiusPx / Steps);
        var steps = Math.Min(Steps, (int)(((ReachOverRadius * seed.RadiusPx) + 2.0f) / step));
        // Eight rays show most seeds to be none; noise may take a little off their mean.
        return IsLikely(seed, step, steps, Directions / FirstRays, SlackOfFirst * LeastContrast)
            && IsLikely(seed, step, steps, 1, LeastContrast)
            ? Measure(seed, step, steps)
            : null;
    }

    // The rim stands out from the core with the opposite sign of the seed.
    private bool IsLikely(SpotSeed seed, float step, int steps, int stride, float leastContrast)
    {
        if (!Sample(seed, step, steps, stride))
        {
            return false;
        }

        var core = Core();
        var contrast = Strongest(core, seed.Sign, steps);
        return contrast >= leastContrast && OuterEdge(_mean, core, seed.Sign, 0.5f * contrast, steps) > 0;
    }

    private float Core() => (_mean[0] + _mean[1] + _mean[2]) / 3.0f;

    private bool Sample(SpotSeed seed, float step, int steps, int stride)
    {
        Array.Clear(_mean);
        for (var direction = 0; direction < Directions; direction += stride)
        {
            var (unitX, unitY) = SpotProbe.Units[direction];
            for (var i = 0; i < steps; i++)
            {
                var x = seed.X + (int)MathF.Round(i * step * unitX);
                var y = seed.Y + (int)MathF.Round(i * step * unitY);
                if ((uint)x >= (uint)lightness.Width || (uint)y >= (uint)lightness.Height || clipped[(y * lightness.Width) + x])
                {
                    return false;
                }

                var value = lightness[x, y];
                _profiles[(direction * Steps) + i] = value;
                _mean[i] += value * stride / Directions;
            }
        }

        return true;
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
