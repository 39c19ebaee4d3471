namespace CoatScan.Metrics.Marks;

/// <summary>Chooses, from seeds of all sizes, those that are spots of their own, strongest first.</summary>
/// <remarks>
/// <para>A seed is one if its core differs from the paint around by at least 3 L* and five times the scatter there, if the paint comes
/// back on at least two thirds of its rim, and if no chosen spot of the same sign has its center within three quarters of the
/// larger radius, or holds it whole. An edge fails on the rim: half of it stays on one side. So does what has no rim
/// within two radii in half of the directions. Where the paint around has the straight edge of a reflection, a seed of 4 px radius or more is one if it
/// stands out so from the paint on both sides of the edge; an edge stronger than the spot itself still hides it.</para>
/// <para>More than 10,000 are none: the texture of the picture stands out, not single spots. Source: the limits are our own; strongest first over scales is common practice.</para>
/// </remarks>
internal static class SpotSelection
{
    private const double LeastContrast = 3.0;
    private const double LeastContrastInScatter = 9.0;
    private const double ScatterMultiple = 5.0;
    private const double ScatterWithEdge = 10.0;
    private const double LeastOpenShare = 2.0 / 3.0;
    private const float LeastRoundness = 0.5f;
    private const float LeastRadiusAcrossPx = 4.0f;
    private const double LeastMovePx = 1.5;
    internal const int MostSpots = 10_000;
    private const float CoverOverRadius = 1.2f;

    /// <summary>Puts seeds in the order in which they are looked at.</summary>
    internal static void Sort(List<SpotSeed> seeds) => seeds.Sort(StrongestFirst);

    /// <summary>The spots among seeds that come strongest first; their places are added to the grid and covered. Null for more than can be.</summary>
    internal static List<SpotCandidate>? Choose(List<SpotSeed> seeds, SpotProbe probe, SeedGrid grid, bool[] covered)
    {
        var chosen = new List<SpotCandidate>();
        var later = new List<SpotSeed>();

        // A spot between others looks shut in until those are known, and a waist between two is none if both are known.
        if (!TryChoose(seeds, LeastRoundness, chosen, later, probe, grid, covered) || !TryChoose(later, 0.0f, chosen, [], probe, grid, covered))
        {
            return null;
        }

        // The first were judged before their neighbors were known: look again with all of them covered.
        for (var i = 0; i < chosen.Count; i++)
        {
            var (candidate, _) = Test(chosen[i].Seed, probe);
            chosen[i] = candidate is { } better ? better with { Seed = chosen[i].Seed } : chosen[i];
        }

        return chosen;
    }

    private static bool TryChoose(
        List<SpotSeed> seeds,
        float leastRoundness,
        List<SpotCandidate> chosen,
        List<SpotSeed> later,
        SpotProbe probe,
        SeedGrid grid,
        bool[] covered)
    {
        var near = new List<int>();
        foreach (var seed in seeds)
        {
            grid.Near(seed, 1.0, near);
            if (IsHeld(seed, near, chosen) || probe.IsClipped(seed))
            {
                continue;
            }

            var (candidate, roundness) = Test(seed, probe);
            if (roundness < leastRoundness)
            {
                later.Add(seed);
                continue;
            }

            if (candidate is not { } found)
            {
                continue;
            }

            var spot = Centered(found, roundness, seed, probe);
            grid.Near(spot.Seed, 1.0, near);
            if (!IsHeld(spot.Seed, near, chosen))
            {
                if (chosen.Count == MostSpots)
                {
                    return false;
                }

                grid.Add(chosen.Count, spot.Seed);
                chosen.Add(spot);
                Cover(spot.Seed, probe.Lightness, covered);
            }
        }

        return true;
    }

    private static int StrongestFirst(SpotSeed first, SpotSeed second)
    {
        var byStrength = second.Strength.CompareTo(first.Strength);
        var byRow = byStrength != 0 ? byStrength : first.Y.CompareTo(second.Y);
        var byColumn = byRow != 0 ? byRow : first.X.CompareTo(second.X);
        return byColumn != 0 ? byColumn : first.RadiusPx.CompareTo(second.RadiusPx);
    }

    private static bool IsHeld(SpotSeed seed, List<int> near, List<SpotCandidate> chosen)
    {
        foreach (var i in near)
        {
            var other = chosen[i].Seed;
            var larger = Math.Max(seed.RadiusPx, other.RadiusPx);
            var distance = other.DistanceTo(seed.X, seed.Y);
            if (other.Sign == seed.Sign
                && (distance < 0.75 * larger
                    || (seed.RadiusPx < 0.75f * other.RadiusPx && distance < other.RadiusPx + (0.2f * seed.RadiusPx))))
            {
                return true;
            }
        }

        return false;
    }

    // Roundness is 0 where the seed may still become a spot once its neighbors are known, 1 where it is none.
    private static (SpotCandidate? Candidate, float Roundness) Test(SpotSeed seed, SpotProbe probe)
    {
        var core = probe.Look(seed);
        if (probe.Around(core) is not { } paint)
        {
            return (null, 0.0f);
        }

        // Most seeds stand out too little whatever the scatter is.
        var contrast = core - paint.Level;
        if (seed.Sign * contrast < LeastContrast)
        {
            return TestAcross(seed, probe) ?? (null, paint.OpenShare < LeastOpenShare ? 0.0f : 1.0f);
        }

        var around = probe.WithScatter(paint);
        if (seed.Sign * contrast < ScatterMultiple * around.Scatter)
        {
            // A large one that stands out clearly but for the scatter around it may have neighbors that are not known yet.
            var mayClear = seed.RadiusPx >= LeastRadiusAcrossPx && seed.Sign * contrast >= LeastContrastInScatter;
            return TestAcross(seed, probe) ?? (null, around.OpenShare < LeastOpenShare || mayClear ? 0.0f : 1.0f);
        }

        if (around.OpenShare < LeastOpenShare)
        {
            return TestAcross(seed, probe) ?? (null, 0.0f);
        }

        // A plane through paint with an edge in it leaves much scatter; with the edge the rim is where it is.
        if (Math.Abs(contrast) < ScatterWithEdge * around.Scatter && TestAcross(seed, probe) is { } across)
        {
            return across;
        }

        var (refined, roundness) = probe.Refine(seed, around, contrast);
        return roundness > 0.0f ? (new(refined, around, contrast), roundness) : (null, 0.0f);
    }

    // Half of a large spot across a reflection's edge looks open and half shut in; against the paint on either side it is one. What stands out on
    // one side alone is the reflection's own corner. The probe must have looked at the seed.
    private static (SpotCandidate? Candidate, float Roundness)? TestAcross(SpotSeed seed, SpotProbe probe, bool mayMove = true)
    {
        if (seed.RadiusPx < LeastRadiusAcrossPx || probe.Across() is not { } around)
        {
            return null;
        }

        var (dark, light) = probe.SidesOf(seed, around);
        var least = (float)Math.Max(LeastContrast, ScatterMultiple * around.Scatter);
        if (seed.Sign * dark < least || seed.Sign * light < least)
        {
            return null;
        }

        var contrast = 0.5f * (dark + light);
        var (refined, roundness) = probe.Refine(seed, around, contrast);
        if (roundness >= LeastRoundness)
        {
            return (new(refined, around, contrast), roundness);
        }

        // The edge draws the seed to the side where the spot stands out more: looked at from its middle, the spot is round.
        if (roundness > 0.0f && mayMove && refined.DistanceTo(seed.X, seed.Y) >= 1.0)
        {
            probe.Look(refined);
            return TestAcross(refined, probe, mayMove: false);
        }

        return null;
    }

    // Rays from off the middle give a middle that is still a little off, and the rim of a large spot would then lie outside of it.
    private static SpotCandidate Centered(SpotCandidate found, float roundness, SpotSeed from, SpotProbe probe)
    {
        var spot = found with { Around = Moved(found.Around, from, found.Seed) };
        if (found.Seed.DistanceTo(from.X, from.Y) < LeastMovePx)
        {
            return spot;
        }

        var (again, rounder) = probe.Refine(spot.Seed, spot.Around, spot.Contrast);
        return rounder > roundness ? spot with { Seed = again, Around = Moved(spot.Around, spot.Seed, again) } : spot;
    }

    // The edge stays where it is when the center moves.
    private static Surround Moved(Surround around, SpotSeed from, SpotSeed to) => around.Step is not { } step
        ? around
        : around with
        {
            Step = step with { PlacePx = step.PlacePx - ((to.X - from.X) * step.UnitX) - ((to.Y - from.Y) * step.UnitY) },
        };

    private static void Cover(SpotSeed seed, Plane plane, bool[] covered)
    {
        var radius = (CoverOverRadius * seed.RadiusPx) + 1.0f;
        var reach = (int)radius;
        for (var y = Math.Max(0, seed.Y - reach); y <= Math.Min(plane.Height - 1, seed.Y + reach); y++)
        {
            var half = (int)MathF.Sqrt((radius * radius) - ((y - seed.Y) * (y - seed.Y)));
            var (start, end) = (Math.Max(0, seed.X - half), Math.Min(plane.Width, seed.X + half + 1));
            covered.AsSpan((y * plane.Width) + start, end - start).Fill(true);
        }
    }
}
