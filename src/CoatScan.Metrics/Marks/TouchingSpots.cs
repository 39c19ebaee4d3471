using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Marks;

/// <summary>Joins neighboring traces that are one spot: where the neck between them is nearly as wide as the narrower of them.</summary>
/// <remarks>
/// Two equal disks that overlap by a fifth of their diameter have a neck of 0.6 diameters and stay two; halves of one irregular spot
/// share a cut as wide as themselves and become one. The limit, 0.85, is our own. Blur fills the corners beside the place where a small
/// disk touches a large one, so that its neck looks as wide as itself: what is at most 0.6 times as wide as its neighbor and lies as far
/// from its center as disks that touch, but for half a pixel of edge, stays a spot of its own, if the neighbor is round; a bump of the neighbor is part of it, and so is a
/// corner of a flake.
/// </remarks>
internal static class TouchingSpots
{
    private const double LargestNeck = 0.85;
    private const double LargestSatellite = 0.6;
    private const double LeastApart = 0.95;
    private const double EdgePx = 0.5;
    private const double LargestAxisRatio = 1.3;
    private const double LeastFilled = 0.95;

    /// <summary>Index of the spot that each trace belongs to; its own index for most.</summary>
    internal static int[] Join(Component?[] shapes, int[] labels, int width, int height)
    {
        var necks = Necks(shapes, labels, width, height);
        var parents = new int[shapes.Length];
        for (var i = 0; i < parents.Length; i++)
        {
            parents[i] = i;
        }

        foreach (var (pair, neck) in necks)
        {
            var (first, second) = ((int)(pair >> 32), (int)(pair & uint.MaxValue));
            if (shapes[first] is { } one && shapes[second] is { } two
                && neck.LengthPx >= LargestNeck * Math.Min(one.Axes().MinorPx, two.Axes().MinorPx)
                && !IsSatellite(one, two))
            {
                var (a, b) = (Root(parents, first), Root(parents, second));
                parents[Math.Max(a, b)] = Math.Min(a, b);
            }
        }

        for (var i = 0; i < parents.Length; i++)
        {
            parents[i] = Root(parents, i);
        }

        return parents;
    }

    private static bool IsSatellite(Component one, Component two)
    {
        var (first, second) = (0.5 * one.EquivalentDiameterPx, 0.5 * two.EquivalentDiameterPx);
        var apart = Math.Sqrt(
            ((one.CenterX - two.CenterX) * (one.CenterX - two.CenterX)) + ((one.CenterY - two.CenterY) * (one.CenterY - two.CenterY)));
        return Math.Min(first, second) <= LargestSatellite * Math.Max(first, second) && apart >= LeastApart * (first + second - EdgePx)
            && IsRound(first > second ? one : two);
    }

    private static bool IsRound(Component shape)
    {
        var (major, minor) = shape.Axes();
        return major <= LargestAxisRatio * minor && shape.AreaPx >= LeastFilled * Math.PI / 4.0 * major * minor;
    }

    private static SortedDictionary<long, Neck> Necks(Component?[] shapes, int[] labels, int width, int height)
    {
        var necks = new SortedDictionary<long, Neck>();
        for (var index = 0; index < shapes.Length; index++)
        {
            if (shapes[index] is not { } shape)
            {
                continue;
            }

            for (var y = shape.StartY; y < shape.EndY; y++)
            {
                for (var x = shape.StartX; x < shape.EndX; x++)
                {
                    var at = (y * width) + x;
                    if (labels[at] == index + 1)
                    {
                        Count(index, labels[x + 1 < width ? at + 1 : at] - 1, x, y, necks);
                        Count(index, labels[y + 1 < height ? at + width : at] - 1, x, y, necks);
                    }
                }
            }
        }

        return necks;
    }

    private static void Count(int one, int two, int x, int y, SortedDictionary<long, Neck> necks)
    {
        if (one == two || two == SpotOutlines.Free - 1)
        {
            return;
        }

        var pair = ((long)Math.Min(one, two) << 32) | (uint)Math.Max(one, two);
        necks[pair] = necks.TryGetValue(pair, out var neck) ? neck.With(x, y) : new(x, y, x, y);
    }

    private static int Root(int[] parents, int index)
    {
        while (parents[index] != index)
        {
            parents[index] = parents[parents[index]];
            index = parents[index];
        }

        return index;
    }

    /// <summary>Where two traces touch: the box of the pixels along the cut.</summary>
    private readonly record struct Neck(int StartX, int StartY, int EndX, int EndY)
    {
        internal double LengthPx => 1.0 + Math.Sqrt(
            ((EndX - StartX) * (EndX - StartX)) + ((EndY - StartY) * (EndY - StartY)));

        internal Neck With(int x, int y) =>
            new(Math.Min(StartX, x), Math.Min(StartY, y), Math.Max(EndX, x), Math.Max(EndY, y));
    }
}
