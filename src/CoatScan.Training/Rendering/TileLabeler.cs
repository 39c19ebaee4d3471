using CoatScan.Classification;

namespace CoatScan.Training.Rendering;

/// <summary>Labels tiles by the known mask of what was rendered.</summary>
internal static class TileLabeler
{
    /// <summary>Where the mask does not decide.</summary>
    public const int Undecided = -1;

    // A tile counts as faulty from this part of the most marked tile's marks on; with fewer, but some, it is left out.
    private const double Enough = 0.2;

    /// <param name="classIndex">Class of the picture.</param>
    /// <param name="mask">One flag a pixel of the rendered picture, row by row.</param>
    /// <param name="widthPx">Width of the mask, pixels.</param>
    /// <param name="heightPx">Height of the mask, pixels.</param>
    public static int[] Label(int classIndex, ReadOnlySpan<bool> mask, int widthPx, int heightPx)
    {
        var sound = VisualClasses.IndexOf(VisualClasses.Sound);
        var labels = new int[TileGrid.Count];
        if (classIndex == sound || classIndex == VisualClasses.IndexOf(VisualClasses.NotAPanel))
        {
            Array.Fill(labels, classIndex);
            return labels;
        }

        var tiles = TileGrid.Tiles(widthPx, heightPx);
        var marks = new int[tiles.Count];
        for (var i = 0; i < marks.Length; i++)
        {
            marks[i] = Count(mask, widthPx, tiles[i]);
        }

        var most = marks.Max();
        for (var i = 0; i < marks.Length; i++)
        {
            labels[i] = marks[i] == 0 ? sound : marks[i] >= Enough * most ? classIndex : Undecided;
        }

        return labels;
    }

    private static int Count(ReadOnlySpan<bool> mask, int widthPx, TileBox tile)
    {
        var count = 0;
        for (var y = tile.Y; y < tile.Y + tile.Height; y++)
        {
            foreach (var marked in mask.Slice((y * widthPx) + tile.X, tile.Width))
            {
                count += marked ? 1 : 0;
            }
        }

        return count;
    }
}
