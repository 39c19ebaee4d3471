namespace CoatScan.Metrics.Lines;

/// <summary>Joins the paths of a graph into lines: at each node the two ends that are most opposite go on into each other.</summary>
/// <remarks>
/// <para>A turn of more than 30 degrees ends a line, unless the node has two paths only. So two scratches that cross stay two, and a
/// branch of a crack is a line of its own.</para>
/// <para>Where more than <see cref="MostEnds"/> ends meet is no crossing but a clump, through which nobody could follow a line: all end there.</para>
/// <para>Cost: by the number of path ends and pixels of line. Deterministic. Source: good continuation, common practice.</para>
/// </remarks>
internal sealed class LineChains
{
    /// <summary>Ends at one node beyond which none goes on; pairing them costs by the cube of their number.</summary>
    internal const int MostEnds = 64;

    private const int ReachPx = 12;

    // Cosine of 150 degrees.
    private const double LeastOpposite = -0.866;

    private readonly LineGraph _graph;
    private readonly Dictionary<End, End> _links = [];

    private LineChains(LineGraph graph) => _graph = graph;

    internal static List<LineChain> Of(LineGraph graph)
    {
        var chains = new LineChains(graph);
        chains.Link();
        return chains.Collect();
    }

    /// <summary>Every path a line of its own: none is followed through a node.</summary>
    internal static List<LineChain> Unjoined(LineGraph graph) => new LineChains(graph).Collect();

    private void Link()
    {
        var ends = new Dictionary<int, List<End>>();
        for (var path = 0; path < _graph.Paths.Count; path++)
        {
            foreach (var atEnd in (ReadOnlySpan<bool>)[false, true])
            {
                var node = _graph.Paths[path].NodeAt(atEnd);
                if (node >= 0)
                {
                    ends.TryAdd(node, []);
                    ends[node].Add(new(path, atEnd));
                }
            }
        }

        foreach (var (node, meeting) in ends)
        {
            if (meeting.Count <= MostEnds)
            {
                LinkNode(node, meeting);
            }
        }
    }

    private void LinkNode(int node, List<End> meeting)
    {
        var directions = meeting.ConvertAll(end => Outward(node, end));
        var limit = meeting.Count == 2 ? 2.0 : LeastOpposite;
        var free = meeting.ConvertAll(_ => true);
        while (true)
        {
            var best = (First: -1, Second: -1, Cosine: limit);
            for (var i = 0; i < meeting.Count; i++)
            {
                for (var j = i + 1; j < meeting.Count; j++)
                {
                    var cosine = (directions[i].X * directions[j].X) + (directions[i].Y * directions[j].Y);
                    best = free[i] && free[j] && cosine < best.Cosine ? (i, j, cosine) : best;
                }
            }

            if (best.First < 0)
            {
                return;
            }

            (free[best.First], free[best.Second]) = (false, false);
            _links[meeting[best.First]] = meeting[best.Second];
            _links[meeting[best.Second]] = meeting[best.First];
        }
    }

    private (double X, double Y) Outward(int node, End end)
    {
        var pixels = _graph.Paths[end.Path].Pixels;
        var step = Math.Min(ReachPx, pixels.Count - 1);
        var (x, y) = _graph.Place(pixels[end.AtEnd ? pixels.Count - 1 - step : step]);
        var (dx, dy) = (x - _graph.Nodes[node].X, y - _graph.Nodes[node].Y);
        var length = Math.Max(Math.Sqrt((dx * dx) + (dy * dy)), 1e-9);
        return (dx / length, dy / length);
    }

    private List<LineChain> Collect()
    {
        var chains = new List<LineChain>();
        var used = new bool[_graph.Paths.Count];

        // Lines with an end first; what is left runs in a circle and starts anywhere.
        foreach (var anywhere in (ReadOnlySpan<bool>)[false, true])
        {
            for (var path = 0; path < used.Length; path++)
            {
                foreach (var atEnd in (ReadOnlySpan<bool>)[false, true])
                {
                    var start = new End(path, atEnd);
                    if (!used[path] && (anywhere || !_links.ContainsKey(start)))
                    {
                        chains.Add(Follow(start, used));
                    }
                }
            }
        }

        return chains;
    }

    private LineChain Follow(End start, bool[] used)
    {
        var (xs, ys) = (new List<double>(), new List<double>());
        var (length, freeEnds) = (0.0, FreeEnd(start));
        for (var entry = start; ;)
        {
            var path = _graph.Paths[entry.Path];
            used[entry.Path] = true;
            length += path.LengthPx;
            for (var i = 0; i < path.Pixels.Count; i++)
            {
                var (x, y) = _graph.Place(path.Pixels[entry.AtEnd ? path.Pixels.Count - 1 - i : i]);
                xs.Add(x);
                ys.Add(y);
            }

            var exit = entry with { AtEnd = !entry.AtEnd };
            if (!_links.TryGetValue(exit, out entry) || used[entry.Path])
            {
                return new([.. xs], [.. ys], length, freeEnds + FreeEnd(exit));
            }
        }
    }

    private int FreeEnd(End end) => _graph.Paths[end.Path].NodeAt(end.AtEnd) < 0 ? 1 : 0;

    private readonly record struct End(int Path, bool AtEnd);
}
