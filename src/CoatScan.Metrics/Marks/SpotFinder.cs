using System.Buffers;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Marks;

/// <summary>Finds compact marks that are darker or brighter than the paint around them.</summary>
/// <remarks>
/// <para>Blob filters of many sizes propose places (<see cref="BlobLadder"/>), <see cref="SpotSelection"/> tests each against the
/// paint around, <see cref="SpotOutlines"/> traces it at half of its contrast, which is the true area of a blurred disk, and
/// <see cref="TouchingSpots"/> joins what is one. A spot has at least 4 px, axes up to 3:1, is filled, clear of the
/// frame and no wider than a sixteenth of the long side (24 px at least); rings come from <see cref="RingFinder"/>.</para>
/// <para>Not told apart: a spot and the mirror image of a small lamp; one photo shows both alike.</para>
/// <para>Cost: O(n) time, four scratch planes. Deterministic. The limits are our own choices.</para>
/// </remarks>
internal static class SpotFinder
{
    private const int LeastWidthLimitPx = 24;
    private const int SpotsOnLongSide = 16;
    private const int LeastAreaPx = 4;
    private const double LargestAxisRatio = 3.0;
    private const double LeastFilled = 0.35;

    /// <summary>Widest spot that is sought in a plane of this size, pixels.</summary>
    internal static int WidthLimitPx(int width, int height) =>
        Math.Max(LeastWidthLimitPx, Math.Max(width, height) / SpotsOnLongSide);

    /// <returns>The spots, largest first; null where more stand out than can be told from texture.</returns>
    internal static List<Mark>? Find(Plane lightness, bool[] clipped)
    {
        using var scope = new PlaneScope();
        var limitPx = WidthLimitPx(lightness.Width, lightness.Height);
        var seeds = BlobLadder.Seeds(lightness, 0.5 * limitPx, scope);
        var covered = ArrayPool<bool>.Shared.Rent(clipped.Length);
        try
        {
            clipped.CopyTo(covered, 0);
            return Trace(lightness, clipped, covered, seeds, limitPx);
        }
        finally
        {
            ArrayPool<bool>.Shared.Return(covered);
        }
    }

    private static List<Mark>? Trace(Plane lightness, bool[] clipped, bool[] covered, List<SpotSeed> seeds, int limitPx)
    {
        var rings = new RingFinder(lightness, clipped).TakeFrom(seeds);
        SpotSelection.Sort(seeds);
        var grid = new SeedGrid(lightness.Width, lightness.Height);
        if (SpotSelection.Choose(seeds, new(lightness, clipped, covered), grid, covered) is not { } spots)
        {
            return null;
        }

        var labels = ArrayPool<int>.Shared.Rent(clipped.Length);
        try
        {
            labels.AsSpan(0, clipped.Length).Clear();
            var shapes = new SpotOutlines(lightness, clipped, labels, spots, grid).Trace();
            var owners = TouchingSpots.Join(shapes, labels, lightness.Width, lightness.Height);
            var marks = Marks(lightness, spots, shapes, owners, limitPx);
            AddRings(rings, limitPx, marks);
            marks.Sort(LargestFirst);
            return marks;
        }
        finally
        {
            ArrayPool<int>.Shared.Return(labels);
        }
    }

    private static List<Mark> Marks(
        Plane lightness, List<SpotCandidate> spots, Component?[] shapes, int[] owners, int limitPx)
    {
        for (var i = 0; i < owners.Length; i++)
        {
            if (owners[i] != i && shapes[i] is { } part)
            {
                shapes[owners[i]]!.Add(part);
            }
        }

        var marks = new List<Mark>();
        for (var i = 0; i < owners.Length; i++)
        {
            if (owners[i] == i && shapes[i] is { } shape && IsCompact(shape, lightness, limitPx))
            {
                marks.Add(new(
                    shape.StartX,
                    shape.StartY,
                    shape.EndX,
                    shape.EndY,
                    shape.CenterX,
                    shape.CenterY,
                    shape.AreaPx,
                    spots[i].Contrast,
                    IsRing: false));
            }
        }

        return marks;
    }

    // A ring lies within the frame whole, since all of its rays do.
    private static void AddRings(List<Ring> rings, int limitPx, List<Mark> marks)
    {
        foreach (var ring in rings)
        {
            var reach = (int)Math.Ceiling(ring.ReachPx);
            var area = (int)Math.Round(Math.PI * ring.RadiusPx * ring.RadiusPx);
            if ((2 * reach) + 1 <= limitPx && area >= LeastAreaPx)
            {
                marks.Add(new(
                    ring.X - reach,
                    ring.Y - reach,
                    ring.X + reach + 1,
                    ring.Y + reach + 1,
                    ring.X,
                    ring.Y,
                    area,
                    ring.Contrast,
                    IsRing: true));
            }
        }
    }

    private static int LargestFirst(Mark first, Mark second)
    {
        var byArea = second.AreaPx.CompareTo(first.AreaPx);
        var byRow = byArea != 0 ? byArea : first.StartYPx.CompareTo(second.StartYPx);
        return byRow != 0 ? byRow : first.StartXPx.CompareTo(second.StartXPx);
    }

    private static bool IsCompact(Component component, Plane lightness, int limitPx)
    {
        if (component.AreaPx < LeastAreaPx
            || component.StartX == 0 || component.StartY == 0
            || component.EndX == lightness.Width || component.EndY == lightness.Height
            || Math.Max(component.EndX - component.StartX, component.EndY - component.StartY) > limitPx)
        {
            return false;
        }

        var (major, minor) = component.Axes();
        return major <= LargestAxisRatio * minor
            && component.AreaPx >= LeastFilled * Math.PI / 4.0 * major * minor;
    }
}
