using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Lines;

/// <summary>The branches and junctions of a thinned mask.</summary>
internal sealed class LineNetwork
{
    private const int LongestPiecePx = 48;

    private readonly bool[] _open;
    private readonly int _width;
    private readonly int[] _steps;

    private LineNetwork(bool[] skeleton, int width)
    {
        _open = (bool[])skeleton.Clone();
        _width = width;
        _steps = [-width, 1, width, -1, -width + 1, width + 1, width - 1, -width - 1];
    }

    /// <summary>Branches, none shorter than asked for; long ones in pieces, so that a curve shows as turning.</summary>
    internal List<LineBranch> Branches { get; } = [];

    /// <summary>Places where three or more branches meet.</summary>
    internal int Junctions { get; private set; }

    /// <summary>Pixels of line in and beside the junctions, which belong to no branch.</summary>
    internal int JunctionPixels { get; private set; }

    internal static LineNetwork Of(bool[] skeleton, int width, int height, double shortestPx)
    {
        var network = new LineNetwork(skeleton, width);
        network.CutJunctions(skeleton, width, height);
        network.TraceFromEnds(shortestPx);
        network.TraceLoops(shortestPx);
        return network;
    }

    private void CutJunctions(bool[] skeleton, int width, int height)
    {
        var junctions = new bool[skeleton.Length];
        for (var i = 0; i < skeleton.Length; i++)
        {
            junctions[i] = skeleton[i] && Skeleton.Entries(Skeleton.Neighbors(skeleton, width, i)) >= 3;
        }

        // Cut wide enough that no branch slips past the junction over a corner.
        for (var i = 0; i < skeleton.Length; i++)
        {
            if (junctions[i])
            {
                Cut(i);
                foreach (var step in _steps)
                {
                    Cut(i + step);
                }
            }
        }

        // Two arms that meet a line a few pixels apart are one crossing.
        var joined = new bool[skeleton.Length];
        for (var y = 2; y < height - 2; y++)
        {
            for (var x = 2; x < width - 2; x++)
            {
                if (junctions[(y * width) + x])
                {
                    for (var dy = -2; dy <= 2; dy++)
                    {
                        joined.AsSpan(((y + dy) * width) + x - 2, 5).Fill(true);
                    }
                }
            }
        }

        Junctions = ConnectedComponents.Find(joined, width, height, Connectivity.Eight).Components.Count;
    }

    private void Cut(int index)
    {
        JunctionPixels += _open[index] ? 1 : 0;
        _open[index] = false;
    }

    private void TraceFromEnds(double shortestPx)
    {
        for (var i = 0; i < _open.Length; i++)
        {
            if (_open[i] && int.PopCount(Skeleton.Neighbors(_open, _width, i)) <= 1)
            {
                Trace(i, shortestPx);
            }
        }
    }

    private void TraceLoops(double shortestPx)
    {
        for (var i = 0; i < _open.Length; i++)
        {
            if (_open[i])
            {
                Trace(i, shortestPx);
            }
        }
    }

    private void Trace(int start, double shortestPx)
    {
        var path = new List<int> { start };
        _open[start] = false;
        for (var next = Next(start); next >= 0; next = Next(next))
        {
            path.Add(next);
            _open[next] = false;
        }

        if (Measure(path, 0, path.Count - 1).LengthPx < shortestPx)
        {
            return;
        }

        var pieces = Math.Max(1, (int)Math.Round((double)path.Count / LongestPiecePx));
        for (var piece = 0; piece < pieces; piece++)
        {
            var first = piece * (path.Count - 1) / pieces;
            var last = (piece + 1) * (path.Count - 1) / pieces;
            Branches.Add(Measure(path, first, last));
        }
    }

    // Straight steps come first, so that a corner is not skipped.
    private int Next(int index)
    {
        foreach (var step in _steps)
        {
            if (_open[index + step])
            {
                return index + step;
            }
        }

        return -1;
    }

    private LineBranch Measure(List<int> path, int first, int last)
    {
        var (straight, diagonal, changes) = (0, 0, 0);
        for (var i = first + 1; i <= last; i++)
        {
            var step = Math.Abs(path[i] - path[i - 1]);
            var isStraight = step == 1 || step == _width;
            straight += isStraight ? 1 : 0;
            diagonal += isStraight ? 0 : 1;
            changes += i > first + 1 && path[i] - path[i - 1] != path[i - 1] - path[i - 2] ? 1 : 0;
        }

        var middle = path[(first + last) / 2];
        return new(
            DigitalLength.Of(straight, diagonal, changes),
            (path[last] % _width) - (path[first] % _width),
            (path[last] / _width) - (path[first] / _width),
            middle % _width,
            middle / _width);
    }
}
