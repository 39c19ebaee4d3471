using System.Numerics;

namespace CoatScan.Metrics.Marks;

/// <summary>Where a plane is looked at for a seed of one size: three circles of paint around it, and its core.</summary>
/// <remarks>The circles have radii from 1.4 to 2 times the seed's, a few pixels added; the core is the disk of half the radius, at most nine samples across.</remarks>
internal sealed class ProbePlaces
{
    /// <summary>Places of paint.</summary>
    internal const int Samples = Circles * RayDirections.Count;

    private const int Circles = 3;
    private const int CoreSteps = 4;

    internal ProbePlaces(float radiusPx, int width)
    {
        Places = CirclesOf(radiusPx);
        Array.ConvertAll(Places, place => (float)place.X).CopyTo(Xs, 0);
        Array.ConvertAll(Places, place => (float)place.Y).CopyTo(Ys, 0);
        Core = CoreOf(radiusPx);
        Offsets = Array.ConvertAll(Places, place => (place.Y * width) + place.X);
        CoreOffsets = Array.ConvertAll(Core, place => (place.Y * width) + place.X);
        ReachPx = Places.Max(place => Math.Max(Math.Abs(place.X), Math.Abs(place.Y)));
    }

    /// <summary>As many, and what is missing to whole vectors.</summary>
    internal static int PaddedSamples => (Samples + Vector<float>.Count - 1) / Vector<float>.Count * Vector<float>.Count;

    /// <summary>Places of paint, pixels from the center.</summary>
    internal (int X, int Y)[] Places { get; }

    /// <summary>The same as steps between samples of the plane.</summary>
    internal int[] Offsets { get; }

    /// <summary>Columns of the places, padded with 0.</summary>
    internal float[] Xs { get; } = new float[PaddedSamples];

    /// <summary>Rows of the places, padded with 0.</summary>
    internal float[] Ys { get; } = new float[PaddedSamples];

    /// <summary>Places of the core, pixels from the center.</summary>
    internal (int X, int Y)[] Core { get; }

    /// <summary>The same as steps between samples of the plane.</summary>
    internal int[] CoreOffsets { get; }

    /// <summary>Farthest place along either axis, pixels.</summary>
    internal int ReachPx { get; }

    private static (int X, int Y)[] CirclesOf(float radiusPx)
    {
        var (inner, outer) = ((1.4f * radiusPx) + 1.5f, (2.0f * radiusPx) + 3.0f);
        var places = new List<(int X, int Y)>();
        for (var circle = 0; circle < Circles; circle++)
        {
            var radius = inner + (circle * (outer - inner) / (Circles - 1));
            foreach (var (unitX, unitY) in RayDirections.Units)
            {
                places.Add(((int)MathF.Round(radius * unitX), (int)MathF.Round(radius * unitY)));
            }
        }

        return [.. places];
    }

    private static (int X, int Y)[] CoreOf(float radiusPx)
    {
        var reach = (int)(0.5f * radiusPx);
        var step = Math.Max(1, reach / CoreSteps);
        var places = new List<(int X, int Y)>();
        for (var dy = -reach; dy <= reach; dy += step)
        {
            for (var dx = -reach; dx <= reach; dx += step)
            {
                if ((dx * dx) + (dy * dy) <= reach * reach)
                {
                    places.Add((dx, dy));
                }
            }
        }

        return [.. places];
    }
}
