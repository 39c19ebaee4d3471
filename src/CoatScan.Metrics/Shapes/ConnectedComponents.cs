namespace CoatScan.Metrics.Shapes;

/// <summary>Finds the connected sets of flagged pixels in a mask.</summary>
/// <remarks>
/// Runs of flagged pixels are joined to those of the row above with a union-find forest. Cost: O(n) to scan, then by the number
/// of runs; no label plane. Deterministic.
/// </remarks>
public static class ConnectedComponents
{
    /// <summary>Finds the components of a row-major mask.</summary>
    /// <exception cref="ArgumentException">There is not one flag a pixel.</exception>
    public static ComponentSet Find(ReadOnlySpan<bool> mask, int width, int height, Connectivity connectivity)
    {
        if (mask.Length != width * height)
        {
            throw new ArgumentException($"{mask.Length} flags are not {width} x {height}.", nameof(mask));
        }

        var reach = connectivity == Connectivity.Eight ? 1 : 0;
        var runs = new List<PixelRun>();
        var parents = new List<int>();
        var aboveStart = 0;
        for (var y = 0; y < height; y++)
        {
            var rowStart = runs.Count;
            CollectRow(mask.Slice(y * width, width), y, runs, parents);
            JoinRows(runs, parents, aboveStart, rowStart, reach);
            aboveStart = rowStart;
        }

        return Gather(runs, parents);
    }

    private static void CollectRow(ReadOnlySpan<bool> row, int y, List<PixelRun> runs, List<int> parents)
    {
        var x = 0;
        while (x < row.Length)
        {
            var offset = row[x..].IndexOf(true);
            if (offset < 0)
            {
                return;
            }

            var start = x + offset;
            var length = row[start..].IndexOf(false);
            var end = length < 0 ? row.Length : start + length;
            runs.Add(new(y, start, end, runs.Count));
            parents.Add(parents.Count);
            x = end;
        }
    }

    private static void JoinRows(List<PixelRun> runs, List<int> parents, int aboveStart, int rowStart, int reach)
    {
        var above = aboveStart;
        for (var i = rowStart; i < runs.Count; i++)
        {
            while (above < rowStart && runs[above].EndX + reach <= runs[i].StartX)
            {
                above++;
            }

            for (var j = above; j < rowStart && runs[j].StartX < runs[i].EndX + reach; j++)
            {
                Join(parents, i, j);
            }
        }
    }

    private static ComponentSet Gather(List<PixelRun> runs, List<int> parents)
    {
        var components = new List<Component>();
        var indexOfRoot = new int[runs.Count];
        Array.Fill(indexOfRoot, -1);
        for (var i = 0; i < runs.Count; i++)
        {
            var root = Root(parents, i);
            if (indexOfRoot[root] < 0)
            {
                indexOfRoot[root] = components.Count;
                components.Add(new());
            }

            var run = runs[i];
            components[indexOfRoot[root]].Add(run.Y, run.StartX, run.EndX);
            runs[i] = run with { Component = indexOfRoot[root] };
        }

        return new(components, runs);
    }

    private static void Join(List<int> parents, int first, int second)
    {
        var a = Root(parents, first);
        var b = Root(parents, second);
        parents[Math.Max(a, b)] = Math.Min(a, b);
    }

    private static int Root(List<int> parents, int index)
    {
        while (parents[index] != index)
        {
            parents[index] = parents[parents[index]];
            index = parents[index];
        }

        return index;
    }
}
