using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.Classification;

/// <summary>
/// Says where a visual class shows: cells of <see cref="CellMap"/> that speak for the class rather than for sound paint
/// are marked, and marked cells that touch are framed together.
/// </summary>
internal static class RegionFinder
{
    // More frames than this help nobody; the largest ones stay.
    private const int MostRegions = 12;

    /// <summary>Frames around marked cells that touch, the ones with most cells first, in pixels of the original photo.</summary>
    /// <param name="marked">One flag a cell, row by row.</param>
    /// <param name="planes">Gives size and scale.</param>
    public static IReadOnlyList<Region> Frame(bool[] marked, PanelPlanes planes)
    {
        var open = (bool[])marked.Clone();
        var groups = new List<List<int>>();
        for (var cell = 0; cell < open.Length; cell++)
        {
            if (open[cell])
            {
                groups.Add(Collect(open, cell));
            }
        }

        return [.. groups
            .OrderByDescending(group => group.Count)
            .Take(MostRegions)
            .Select(group => ToRegion(group, planes))];
    }

    // Cells that touch at a side or a corner, taken out of the open ones.
    private static List<int> Collect(bool[] open, int first)
    {
        var group = new List<int>();
        var waiting = new Stack<int>([first]);
        open[first] = false;
        while (waiting.TryPop(out var cell))
        {
            group.Add(cell);
            var (row, column) = Math.DivRem(cell, CellMap.Side);
            for (var y = Math.Max(0, row - 1); y <= Math.Min(CellMap.Side - 1, row + 1); y++)
            {
                for (var x = Math.Max(0, column - 1); x <= Math.Min(CellMap.Side - 1, column + 1); x++)
                {
                    var next = (y * CellMap.Side) + x;
                    if (open[next])
                    {
                        open[next] = false;
                        waiting.Push(next);
                    }
                }
            }
        }

        return group;
    }

    private static Region ToRegion(List<int> cells, PanelPlanes planes)
    {
        var widthPx = planes.Width * planes.OriginalPxPerPx;
        var heightPx = planes.Height * planes.OriginalPxPerPx;
        var startX = Edge(widthPx, cells.Min(cell => cell % CellMap.Side));
        var endX = Edge(widthPx, cells.Max(cell => cell % CellMap.Side) + 1);
        var startY = Edge(heightPx, cells.Min(cell => cell / CellMap.Side));
        var endY = Edge(heightPx, cells.Max(cell => cell / CellMap.Side) + 1);
        var mmPerOriginalPx = planes.MmPerPx / planes.OriginalPxPerPx;
        return new Region(
            0, startX, startY, endX, endY, (endX - startX) * mmPerOriginalPx, (endY - startY) * mmPerOriginalPx);
    }

    private static int Edge(double lengthPx, int cells) => (int)Math.Round(lengthPx * cells / CellMap.Side);
}
