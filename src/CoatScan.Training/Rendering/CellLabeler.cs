using CoatScan.Classification;

namespace CoatScan.Training.Rendering;

/// <summary>Labels the network's cells by the known mask of what was rendered.</summary>
internal static class CellLabeler
{
    /// <summary>Where the mask does not decide.</summary>
    public const int Undecided = -1;

    // From this share of a cell's pixels on, the fault is there; with fewer, but some, the cell is left out.
    private const double Enough = 0.05;

    /// <param name="classIndex">Class of the picture.</param>
    /// <param name="mask">One flag a pixel of the rendered picture, row by row.</param>
    /// <param name="widthPx">Width of the mask, pixels.</param>
    /// <param name="heightPx">Height of the mask, pixels.</param>
    /// <returns>One label a cell, row by row.</returns>
    public static int[] Label(int classIndex, ReadOnlySpan<bool> mask, int widthPx, int heightPx)
    {
        var sound = VisualClasses.IndexOf(VisualClasses.Sound);
        var labels = new int[CellMap.Count];
        if (classIndex == sound || classIndex == VisualClasses.IndexOf(VisualClasses.NotAPanel))
        {
            Array.Fill(labels, classIndex);
            return labels;
        }

        var marked = new int[CellMap.Count];
        var all = new int[CellMap.Count];
        for (var y = 0; y < heightPx; y++)
        {
            var row = y * CellMap.Side / heightPx * CellMap.Side;
            for (var x = 0; x < widthPx; x++)
            {
                var cell = row + (x * CellMap.Side / widthPx);
                all[cell]++;
                marked[cell] += mask[(y * widthPx) + x] ? 1 : 0;
            }
        }

        for (var i = 0; i < labels.Length; i++)
        {
            labels[i] = marked[i] == 0 ? sound : marked[i] >= Enough * all[i] ? classIndex : Undecided;
        }

        return labels;
    }
}
