using System.Runtime.InteropServices;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Marks;

/// <summary>Traces each chosen spot at half of its contrast; touching spots share out the pixels between them.</summary>
/// <remarks>
/// <para>From the seed, connected pixels belong to the spot that differ from the paint by more than half of the spot's contrast. Where
/// another spot of the same sign is near, a pixel goes to the one from which it is fewer radii away.</para>
/// <para>A trace is given up where it runs away: more than a third of its rim lies on the limit of three radii, as at an edge.</para>
/// <para>Cost: by the area of the spots. Deterministic.</para>
/// </remarks>
internal sealed class SpotOutlines
{
    internal const int Free = 0;

    private const float LimitOverRadius = 3.0f;
    private const double MostRunaway = 1.0 / 3.0;

    private readonly Plane _lightness;
    private readonly bool[] _clipped;
    private readonly int[] _labels;
    private readonly List<SpotCandidate> _spots;
    private readonly SeedGrid _grid;
    private readonly Stack<int> _open = new();
    private readonly List<int> _traced = [];
    private readonly List<int> _near = [];
    private readonly List<SpotSeed> _rivals = [];

    internal SpotOutlines(Plane lightness, bool[] clipped, int[] labels, List<SpotCandidate> spots, SeedGrid grid)
    {
        _lightness = lightness;
        _clipped = clipped;
        _labels = labels;
        _spots = spots;
        _grid = grid;
    }

    /// <summary>Writes the label of every spot, its index plus 1, and gives their shapes; null where a trace ran away.</summary>
    internal Component?[] Trace()
    {
        var shapes = new Component?[_spots.Count];
        for (var i = 0; i < shapes.Length; i++)
        {
            shapes[i] = Trace(i);
        }

        return shapes;
    }

    private Component? Trace(int index)
    {
        var spot = _spots[index];
        var (seed, width) = (spot.Seed, _lightness.Width);
        FindRivals(index);
        _traced.Clear();
        _open.Clear();
        var shape = new Component();
        var limit = (LimitOverRadius * seed.RadiusPx) + 3.0f;
        var (rim, runaway) = (0, 0);
        Start(spot, index + 1);
        while (_open.TryPop(out var at))
        {
            var (x, y) = (at % width, at / width);
            shape.Add(y, x, x + 1);
            var isRim = false;
            isRim |= !Visit(x - 1, y, spot, index + 1);
            isRim |= !Visit(x + 1, y, spot, index + 1);
            isRim |= !Visit(x, y - 1, spot, index + 1);
            isRim |= !Visit(x, y + 1, spot, index + 1);
            rim += isRim ? 1 : 0;
            runaway += isRim && seed.DistanceTo(x, y) > limit - 1.5f ? 1 : 0;
        }

        if (_traced.Count > 0 && runaway <= MostRunaway * rim)
        {
            return shape;
        }

        foreach (var at in _traced)
        {
            _labels[at] = Free;
        }

        return null;
    }

    // The very center may be a hole: the nearest pixel of the core along eight directions will do.
    private void Start(SpotCandidate spot, int label)
    {
        var seed = spot.Seed;
        for (var reach = 0; reach <= (int)seed.RadiusPx; reach++)
        {
            for (var direction = 0; direction < 9; direction++)
            {
                var (dx, dy) = ((direction % 3) - 1, (direction / 3) - 1);
                if (Visit(seed.X + (reach * dx), seed.Y + (reach * dy), spot, label))
                {
                    return;
                }
            }
        }
    }

    private void FindRivals(int index)
    {
        _rivals.Clear();
        _grid.Near(_spots[index].Seed, LimitOverRadius, _near);
        foreach (var i in _near)
        {
            // Where both reach their limit of three radii they can still dispute a pixel; farther apart they cannot.
            var (one, other) = (_spots[index].Seed, _spots[i].Seed);
            if (i != index && other.Sign == one.Sign
                && other.DistanceTo(one.X, one.Y) < (LimitOverRadius * (one.RadiusPx + other.RadiusPx)) + 6.0)
            {
                _rivals.Add(other);
            }
        }
    }

    // True where the pixel is part of the spot, newly or already.
    private bool Visit(int x, int y, SpotCandidate spot, int label)
    {
        if ((uint)x >= (uint)_lightness.Width || (uint)y >= (uint)_lightness.Height)
        {
            return false;
        }

        var at = (y * _lightness.Width) + x;
        if (_clipped[at])
        {
            return false;
        }

        if (_labels[at] != Free)
        {
            return _labels[at] == label;
        }

        var seed = spot.Seed;
        double dx = x - seed.X;
        double dy = y - seed.Y;
        var square = (dx * dx) + (dy * dy);
        var contrast = _lightness.Values[at] - spot.Around.At(x - seed.X, y - seed.Y);
        var limit = (LimitOverRadius * seed.RadiusPx) + 3.0;
        if (seed.Sign * contrast <= 0.5f * Math.Abs(spot.Contrast)
            || square > limit * limit
            || IsNearerToRival(x, y, square / (seed.RadiusPx * seed.RadiusPx)))
        {
            return false;
        }

        _labels[at] = label;
        _traced.Add(at);
        _open.Push(at);
        return true;
    }

    private bool IsNearerToRival(int x, int y, double squareRadii)
    {
        foreach (ref readonly var rival in CollectionsMarshal.AsSpan(_rivals))
        {
            double dx = x - rival.X;
            double dy = y - rival.Y;
            if ((dx * dx) + (dy * dy) < squareRadii * rival.RadiusPx * rival.RadiusPx)
            {
                return true;
            }
        }

        return false;
    }
}
