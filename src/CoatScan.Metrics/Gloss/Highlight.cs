using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Gloss;

/// <summary>Finds the largest highlight of a luminance plane and tells how soft its edge is.</summary>
/// <remarks>
/// <para>Between the median and the peak (99.8th percentile) of luminance the areas at a quarter, half and three quarters of
/// the height are compared: (A25 - A75) / (2 A50) is the flank's width over the highlight's size, whatever its outline. For a
/// disk of radius r behind a Gaussian of s, s much smaller than r, it is 1.349 s / r; for a Gaussian blob ln 3 / (2 ln 2) =
/// 0.7925, by which it is divided.</para>
/// <para>No highlight: a peak under twice the median or under 0.1 above it, under 30 px at half height, cut by the frame, or
/// one whose foot runs into its surroundings (A25 over 4 A50). Nor is a bright mark one: a ragged area, under 0.77 of its
/// convex hull, or a sharp one (index under 0.3) that does not come near clipping, as the mirror image of a lamp does.</para>
/// <para>Source: areas of a Gaussian at its levels, closed form; the index is our own and is no gloss unit.</para>
/// </remarks>
internal static class Highlight
{
    internal const double BlobRatio = 0.79248125;

    private const double PeakShare = 0.998;
    private const double LeastPeakRatio = 2.0;
    private const double LeastPeakRise = 0.1;
    private const int LeastAreaPx = 30;
    private const int LargestFootRatio = 4;

    // Chosen on 15 real photos, in 9 of which a chip down to the primer had passed for a highlight.
    private const double LeastSolidity = 0.77;
    private const double SharpSoftness = 0.3;
    private const double LampPeak = 0.95;

    internal static HighlightReading? Find(Plane luminance)
    {
        var histogram = new ValueHistogram(0.0f, 1.0f, 10_000);
        histogram.Add(luminance.Values);
        var median = (float)histogram.Quantile(0.5);
        var peak = (float)histogram.Quantile(PeakShare);
        if (peak < LeastPeakRatio * median || peak - median < LeastPeakRise)
        {
            return null;
        }

        var half = Largest(Above(luminance, median + (0.5f * (peak - median))), luminance);
        if (half is not { } body || body.Component.AreaPx < LeastAreaPx
            || body.Component.AreaPx < LeastSolidity * ConvexHull.AreaPx(body.Runs))
        {
            return null;
        }

        var foot = Containing(Above(luminance, median + (0.25f * (peak - median))), luminance, body.Seed);
        var crest = CountInside(luminance, body, median + (0.75f * (peak - median)));
        if (TouchesFrame(foot, luminance) || foot.AreaPx > LargestFootRatio * body.Component.AreaPx)
        {
            return null;
        }

        var ratio = (foot.AreaPx - crest) / (2.0 * body.Component.AreaPx);
        var softness = Math.Clamp(ratio / BlobRatio, 0.0, 1.0);
        return softness < SharpSoftness && peak < LampPeak
            ? null
            : new(softness, body.Component.Axes().MinorPx / 2.0);
    }

    private static ComponentSet Above(Plane plane, float level)
    {
        var mask = new bool[plane.Values.Length];
        for (var i = 0; i < mask.Length; i++)
        {
            mask[i] = plane.Values[i] >= level;
        }

        return ConnectedComponents.Find(mask, plane.Width, plane.Height, Connectivity.Eight);
    }

    private static Body? Largest(ComponentSet set, Plane plane)
    {
        var best = -1;
        for (var i = 0; i < set.Components.Count; i++)
        {
            var component = set.Components[i];
            if (!TouchesFrame(component, plane) && (best < 0 || component.AreaPx > set.Components[best].AreaPx))
            {
                best = i;
            }
        }

        if (best < 0)
        {
            return null;
        }

        var runs = new List<PixelRun>();
        foreach (var run in set.Runs)
        {
            if (run.Component == best)
            {
                runs.Add(run);
            }
        }

        return new(set.Components[best], runs, runs[0]);
    }

    private static Component Containing(ComponentSet set, Plane plane, PixelRun seed)
    {
        foreach (var run in set.Runs)
        {
            if (run.Y == seed.Y && run.StartX <= seed.StartX && run.EndX > seed.StartX)
            {
                return set.Components[run.Component];
            }
        }

        throw new InvalidOperationException(
            $"A pixel above half height lies below a quarter in a plane of {plane.Width} x {plane.Height}.");
    }

    private static int CountInside(Plane plane, Body body, float level)
    {
        var count = 0;
        foreach (var run in body.Runs)
        {
            foreach (var value in plane.Row(run.Y)[run.StartX..run.EndX])
            {
                count += value >= level ? 1 : 0;
            }
        }

        return count;
    }

    private static bool TouchesFrame(Component component, Plane plane) =>
        component.StartX == 0 || component.StartY == 0
        || component.EndX == plane.Width || component.EndY == plane.Height;

    private readonly record struct Body(Component Component, List<PixelRun> Runs, PixelRun Seed);
}
