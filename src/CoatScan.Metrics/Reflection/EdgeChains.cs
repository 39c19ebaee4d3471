using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Reflection;

/// <summary>Chains of edge points that run nearly straight, longest first.</summary>
/// <remarks>
/// <para>Points where the slope of a Gaussian of 1.2 px is a crest are linked while the bright side stays on one hand and the
/// direction turns by at most 40 degrees from point to point; a wavy reflection of a straight object stays in one chain. A
/// chain that leaves its chord by more than 6 % of its length, or 3 px, is split where it leaves it most.</para>
/// <para>Cost: O(n) time, two scratch planes. Deterministic.</para>
/// <para>Sources: crests as in Canny, IEEE PAMI 8(6), 679-698, 1986; splitting as in Douglas and Peucker, Cartographica
/// 10(2), 112-122, 1973 (both from memory). The limits are our own.</para>
/// </remarks>
internal static class EdgeChains
{
    private const double SigmaPx = 1.2;
    private const int MarginPx = 3;
    private const float LeastTurnCosine = 0.766f;
    private const double DeviationShare = 0.06;
    private const double LeastDeviationPx = 3.0;

    /// <summary>Chains at least this long in a plane of CIE L*.</summary>
    /// <param name="lightness">CIE L*.</param>
    /// <param name="leastLengthPx">Shortest chord, pixels.</param>
    /// <param name="leastSlope">Least slope of an edge point, L* per pixel.</param>
    /// <param name="scope">Lends the scratch planes.</param>
    internal static List<List<EdgePoint>> Find(Plane lightness, double leastLengthPx, float leastSlope, PlaneScope scope)
    {
        var smooth = GaussianFilter.Kernel(SigmaPx);
        var first = GaussianDerivative.First(SigmaPx);
        var gx = scope.RentLike(lightness);
        var gy = scope.RentLike(lightness);
        SeparableFilter.Apply(lightness, gx, first, smooth, KernelParity.Odd, KernelParity.Even);
        SeparableFilter.Apply(lightness, gy, smooth, first, KernelParity.Even, KernelParity.Odd);
        var crests = Crests(gx, gy, leastSlope);
        var chains = new List<List<EdgePoint>>();
        for (var i = 0; i < crests.Length; i++)
        {
            if (crests[i])
            {
                Split(Follow(crests, gx, gy, i), leastLengthPx, chains);
            }
        }

        chains.Sort((a, b) => ChordPx(b).CompareTo(ChordPx(a)));
        return chains;
    }

    internal static double ChordPx(List<EdgePoint> chain) =>
        Math.Sqrt(Math.Pow(chain[^1].X - chain[0].X, 2.0) + Math.Pow(chain[^1].Y - chain[0].Y, 2.0));

    private static bool[] Crests(Plane gx, Plane gy, float leastSlope)
    {
        var crests = new bool[gx.Values.Length];
        var least = leastSlope * leastSlope;
        for (var y = MarginPx; y < gx.Height - MarginPx; y++)
        {
            for (var x = MarginPx; x < gx.Width - MarginPx; x++)
            {
                var i = (y * gx.Width) + x;
                var here = Square(gx, gy, i);
                if (here >= least)
                {
                    // The neighbors along the axis that the slope is closer to; of two equal ones the first is the crest.
                    var step = Math.Abs(gx.Values[i]) >= Math.Abs(gy.Values[i]) ? 1 : gx.Width;
                    crests[i] = here > Square(gx, gy, i - step) && here >= Square(gx, gy, i + step);
                }
            }
        }

        return crests;
    }

    private static float Square(Plane gx, Plane gy, int i) =>
        (gx.Values[i] * gx.Values[i]) + (gy.Values[i] * gy.Values[i]);

    // Takes the points that it follows off the crests.
    private static List<EdgePoint> Follow(bool[] crests, Plane gx, Plane gy, int seed)
    {
        crests[seed] = false;
        var chain = Walk(crests, gx, gy, seed, -1.0f);
        chain.Reverse();
        chain.Add(PointAt(gx, gy, seed));
        chain.AddRange(Walk(crests, gx, gy, seed, 1.0f));
        return chain;
    }

    private static List<EdgePoint> Walk(bool[] crests, Plane gx, Plane gy, int seed, float sense)
    {
        var chain = new List<EdgePoint>();
        var here = PointAt(gx, gy, seed);
        while (Next(crests, gx, gy, here, sense) is { } next)
        {
            crests[next] = false;
            here = PointAt(gx, gy, next);
            chain.Add(here);
        }

        return chain;
    }

    private static int? Next(bool[] crests, Plane gx, Plane gy, EdgePoint here, float sense)
    {
        var (alongX, alongY) = (-here.ToBrightY * sense, here.ToBrightX * sense);
        int? best = null;
        var bestScore = float.NegativeInfinity;
        for (var dy = -2; dy <= 2; dy++)
        {
            for (var dx = -2; dx <= 2; dx++)
            {
                var (x, y) = ((int)here.X + dx, (int)here.Y + dy);
                if ((dx == 0 && dy == 0) || (uint)x >= (uint)gx.Width || (uint)y >= (uint)gx.Height
                    || !crests[(y * gx.Width) + x])
                {
                    continue;
                }

                var distance = MathF.Sqrt((dx * dx) + (dy * dy));
                var ahead = ((dx * alongX) + (dy * alongY)) / distance;
                var point = PointAt(gx, gy, (y * gx.Width) + x);
                var turn = (point.ToBrightX * here.ToBrightX) + (point.ToBrightY * here.ToBrightY);
                var score = ahead + turn - (0.3f * distance);
                if (ahead > 0.5f && turn >= LeastTurnCosine && score > bestScore)
                {
                    (best, bestScore) = ((y * gx.Width) + x, score);
                }
            }
        }

        return best;
    }

    private static EdgePoint PointAt(Plane gx, Plane gy, int i)
    {
        var length = MathF.Sqrt(Square(gx, gy, i));
        return new(i % gx.Width, i / gx.Width, gx.Values[i] / length, gy.Values[i] / length);
    }

    private static void Split(List<EdgePoint> chain, double leastLengthPx, List<List<EdgePoint>> chains)
    {
        if (chain.Count < 2 || ChordPx(chain) < leastLengthPx)
        {
            // A bow can be longer than its chord: its two halves may still be long enough.
            if (chain.Count > 2.0 * leastLengthPx)
            {
                Split(chain[..(chain.Count / 2)], leastLengthPx, chains);
                Split(chain[(chain.Count / 2)..], leastLengthPx, chains);
            }

            return;
        }

        var (at, deviation) = Farthest(chain);
        if (deviation <= Math.Max(LeastDeviationPx, DeviationShare * ChordPx(chain)))
        {
            chains.Add(chain);
            return;
        }

        Split(chain[..at], leastLengthPx, chains);
        Split(chain[at..], leastLengthPx, chains);
    }

    private static (int At, double DeviationPx) Farthest(List<EdgePoint> chain)
    {
        var (start, end) = (chain[0], chain[^1]);
        var chord = ChordPx(chain);
        var (at, farthest) = (chain.Count / 2, 0.0);
        for (var i = 1; i < chain.Count - 1; i++)
        {
            var deviation = Math.Abs(((chain[i].X - start.X) * (end.Y - start.Y))
                - ((chain[i].Y - start.Y) * (end.X - start.X))) / chord;
            if (deviation > farthest)
            {
                (at, farthest) = (i, deviation);
            }
        }

        return (at, farthest);
    }
}
