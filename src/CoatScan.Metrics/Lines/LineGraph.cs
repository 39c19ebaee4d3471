using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Lines;

/// <summary>A thinned mask as paths between nodes.</summary>
/// <remarks>
/// <para>A node is a place where three or more paths meet; such places a few pixels apart are one. Short paths that hang on a node with
/// one end are spurs of the thinning and go, as do short ones that touch nothing; what joins two nodes stays, however short.</para>
/// <para>Cost: by the number of thinned pixels, and two scans of the mask. Deterministic.</para>
/// </remarks>
internal sealed class LineGraph
{
    private readonly bool[] _open;
    private readonly int _width;
    private readonly int[] _steps;
    private readonly Dictionary<int, int> _nodeOf = [];

    private LineGraph(bool[] skeleton, int width)
    {
        _open = skeleton;
        _width = width;
        _steps = [-width, 1, width, -1, -width + 1, width + 1, width - 1, -width - 1];
    }

    /// <summary>Paths without spurs.</summary>
    internal List<LinePath> Paths { get; } = [];

    /// <summary>Centers of the nodes, pixels.</summary>
    internal List<(double X, double Y)> Nodes { get; } = [];

    /// <summary>Column and row of a pixel.</summary>
    internal (int X, int Y) Place(int pixel) => (pixel % _width, pixel / _width);

    /// <summary>How many path ends lead to each node.</summary>
    internal int[] Degrees()
    {
        var degrees = new int[Nodes.Count];
        foreach (var path in Paths)
        {
            foreach (var node in (ReadOnlySpan<int>)[path.StartNode, path.EndNode])
            {
                if (node >= 0)
                {
                    degrees[node]++;
                }
            }
        }

        return degrees;
    }

    /// <summary>Thins a mask and follows what stays; the mask is used up.</summary>
    internal static LineGraph Of(bool[] mask, int width, int height, double shortestPx)
    {
        var graph = new LineGraph(mask, width);
        var pixels = Skeleton.Thin(mask, width, height);
        graph.CutNodes(pixels, height);
        graph.Trace(pixels, fromEnds: true, shortestPx);
        graph.Trace(pixels, fromEnds: false, shortestPx);
        return graph;
    }

    private void CutNodes(List<int> pixels, int height)
    {
        var junctions = new List<int>();
        foreach (var pixel in pixels)
        {
            if (Skeleton.Entries(Skeleton.Neighbors(_open, _width, pixel)) >= 3)
            {
                junctions.Add(pixel);
            }
        }

        if (junctions.Count == 0)
        {
            return;
        }

        // Two arms that meet a line a few pixels apart are one crossing.
        var joined = new bool[_open.Length];
        foreach (var junction in junctions)
        {
            var (x, y) = Place(junction);
            var (left, right) = (Math.Max(x - 2, 0), Math.Min(x + 3, _width));
            for (var row = Math.Max(y - 2, 0); row < Math.Min(y + 3, height); row++)
            {
                joined.AsSpan((row * _width) + left, right - left).Fill(true);
            }
        }

        NameNodes(joined, height);
        Center(junctions);

        // Cut wide enough that no path slips past the node over a corner.
        foreach (var junction in junctions)
        {
            _open[junction] = false;
            foreach (var step in _steps)
            {
                _open[junction + step] = false;
            }
        }
    }

    private void NameNodes(bool[] joined, int height)
    {
        var found = ConnectedComponents.Find(joined, _width, height, Connectivity.Eight);
        foreach (var run in found.Runs)
        {
            for (var x = run.StartX; x < run.EndX; x++)
            {
                _nodeOf[(run.Y * _width) + x] = run.Component;
            }
        }

        foreach (var _ in found.Components)
        {
            Nodes.Add(default);
        }
    }

    private void Center(List<int> junctions)
    {
        var counts = new int[Nodes.Count];
        foreach (var junction in junctions)
        {
            var node = _nodeOf[junction];
            var (x, y) = Place(junction);
            Nodes[node] = (Nodes[node].X + x, Nodes[node].Y + y);
            counts[node]++;
        }

        for (var node = 0; node < counts.Length; node++)
        {
            Nodes[node] = (Nodes[node].X / counts[node], Nodes[node].Y / counts[node]);
        }
    }

    // What has no end is a loop, and starts anywhere.
    private void Trace(List<int> pixels, bool fromEnds, double shortestPx)
    {
        foreach (var pixel in pixels)
        {
            if (_open[pixel] && (!fromEnds || int.PopCount(Skeleton.Neighbors(_open, _width, pixel)) <= 1))
            {
                var path = Follow(pixel);
                if (!((path.IsSpur || path.IsAlone) && path.LengthPx < shortestPx))
                {
                    Paths.Add(path);
                }
            }
        }
    }

    private LinePath Follow(int start)
    {
        var pixels = new List<int> { start };
        _open[start] = false;
        for (var next = Next(start); next >= 0; next = Next(next))
        {
            // Thinning leaves stairs on oblique lines: a corner between two neighbors would count two steps for one.
            if (pixels.Count > 1 && AreNeighbors(pixels[^2], next))
            {
                pixels.RemoveAt(pixels.Count - 1);
            }

            pixels.Add(next);
            _open[next] = false;
        }

        var (first, last) = (NodeAt(start), NodeAt(pixels[^1]));
        return new(pixels, first, last, DigitalLength.Of(pixels, _width) + Reach(start, first) + Reach(pixels[^1], last));
    }

    private bool AreNeighbors(int first, int second) => Array.IndexOf(_steps, second - first) >= 0;

    private int NodeAt(int pixel) => _nodeOf.TryGetValue(pixel, out var node) ? node : -1;

    private double Reach(int pixel, int node)
    {
        if (node < 0)
        {
            return 0.0;
        }

        var (x, y) = Place(pixel);
        var (dx, dy) = (x - Nodes[node].X, y - Nodes[node].Y);
        return Math.Sqrt((dx * dx) + (dy * dy));
    }

    // Straight steps come first, so that a corner is not skipped.
    private int Next(int pixel)
    {
        foreach (var step in _steps)
        {
            if (_open[pixel + step])
            {
                return pixel + step;
            }
        }

        return -1;
    }
}
