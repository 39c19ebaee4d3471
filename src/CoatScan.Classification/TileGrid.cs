namespace CoatScan.Classification;

/// <summary>Cuts planes into the whole picture and a grid of square tiles, so that small faults are seen near.</summary>
public static class TileGrid
{
    /// <summary>Tiles a row and rows: nine passes of the network beside the whole picture.</summary>
    public const int PerSide = 3;

    /// <summary>Number of tiles.</summary>
    public const int Count = PerSide * PerSide;

    /// <summary>
    /// The tiles, row by row. They are square (a squeezed circle is no circle), spread evenly, and touch or
    /// overlap along the longer side.
    /// </summary>
    /// <param name="widthPx">Width of the planes, pixels, at least 1.</param>
    /// <param name="heightPx">Height of the planes, pixels, at least 1.</param>
    public static IReadOnlyList<TileBox> Tiles(int widthPx, int heightPx)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(widthPx, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(heightPx, 1);
        var longer = Math.Max(widthPx, heightPx);
        var side = Math.Min(Math.Min(widthPx, heightPx), (longer + PerSide - 1) / PerSide);
        var tiles = new TileBox[Count];
        for (var row = 0; row < PerSide; row++)
        {
            for (var column = 0; column < PerSide; column++)
            {
                var x = (widthPx - side) * column / (PerSide - 1);
                var y = (heightPx - side) * row / (PerSide - 1);
                tiles[(row * PerSide) + column] = new TileBox(x, y, side, side);
            }
        }

        return tiles;
    }
}
