using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.Classification;

/// <summary>
/// Says where a visual class shows. The photo is divided into as many equal cells as there are tiles; a cell is marked
/// when its tile speaks for the class rather than for sound paint, and marked cells are joined to rectangles.
/// </summary>
internal static class RegionFinder
{
    /// <summary>Share of the class against sound in one tile, [0, 1].</summary>
    public static double Against(ReadOnlySpan<float> tileScore, int classIndex)
    {
        var sound = tileScore[VisualClasses.IndexOf(VisualClasses.Sound)];
        var sum = tileScore[classIndex] + sound;
        return sum > 0 ? tileScore[classIndex] / sum : 0;
    }

    /// <summary>Marked cells as disjoint rectangles in pixels of the original photo.</summary>
    /// <param name="marked">One flag a cell, row by row.</param>
    /// <param name="planes">Gives size and scale.</param>
    public static IReadOnlyList<Region> Join(bool[] marked, PanelPlanes planes)
    {
        const int side = TileGrid.PerSide;
        var open = (bool[])marked.Clone();
        var regions = new List<Region>();
        for (var row = 0; row < side; row++)
        {
            for (var column = 0; column < side; column++)
            {
                if (!open[(row * side) + column])
                {
                    continue;
                }

                var endColumn = column + 1;
                while (endColumn < side && open[(row * side) + endColumn])
                {
                    endColumn++;
                }

                var endRow = row + 1;
                while (endRow < side && AllOpen(open, endRow, column, endColumn))
                {
                    endRow++;
                }

                Close(open, row, endRow, column, endColumn);
                regions.Add(ToRegion(row, endRow, column, endColumn, planes));
            }
        }

        return regions;
    }

    private static bool AllOpen(bool[] open, int row, int startColumn, int endColumn) =>
        !open.AsSpan((row * TileGrid.PerSide) + startColumn, endColumn - startColumn).Contains(false);

    private static void Close(bool[] open, int startRow, int endRow, int startColumn, int endColumn)
    {
        for (var row = startRow; row < endRow; row++)
        {
            open.AsSpan((row * TileGrid.PerSide) + startColumn, endColumn - startColumn).Clear();
        }
    }

    private static Region ToRegion(int startRow, int endRow, int startColumn, int endColumn, PanelPlanes planes)
    {
        var widthPx = planes.Width * planes.OriginalPxPerPx;
        var heightPx = planes.Height * planes.OriginalPxPerPx;
        var startX = (int)Math.Round(widthPx * startColumn / TileGrid.PerSide);
        var endX = (int)Math.Round(widthPx * endColumn / TileGrid.PerSide);
        var startY = (int)Math.Round(heightPx * startRow / TileGrid.PerSide);
        var endY = (int)Math.Round(heightPx * endRow / TileGrid.PerSide);
        var mmPerOriginalPx = planes.MmPerPx / planes.OriginalPxPerPx;
        return new Region(
            0, startX, startY, endX, endY, (endX - startX) * mmPerOriginalPx, (endY - startY) * mmPerOriginalPx);
    }
}
