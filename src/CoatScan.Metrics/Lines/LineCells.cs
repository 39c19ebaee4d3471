using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Lines;

/// <summary>Counts the cells that lines enclose: parts of the rest of a mask that do not touch the frame.</summary>
/// <remarks>
/// <para>Parts are joined over sides only, as lines are over corners: then parts enclosed are the holes of the lines, and lines less
/// holes is the Euler number. A part under the least area is a gap inside a stroke, not a cell.</para>
/// <para>Lines are widened first by so many pixels on each side: where three cracks meet there is no direction across, so that the
/// ridge fades and leaves a gap in the lines of a few pixels.</para>
/// <para>Cost: O(n). Source: Rosenfeld, J. ACM 17(1), 146-160, 1970 (opposite connectivity of figure and ground; from memory).</para>
/// </remarks>
internal static class LineCells
{
    internal static int Count(ReadOnlySpan<bool> lines, int width, int height, int widenPx, int leastAreaPx)
    {
        var rest = new bool[lines.Length];
        rest.AsSpan().Fill(true);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width;)
            {
                var offset = lines.Slice((y * width) + x, width - x).IndexOf(true);
                if (offset < 0)
                {
                    break;
                }

                ClearAround(rest, x + offset, y, width, height, widenPx);
                x += offset + 1;
            }
        }

        var cells = 0;
        foreach (var part in ConnectedComponents.Find(rest, width, height, Connectivity.Four).Components)
        {
            var isInside = part.StartX > 0 && part.StartY > 0 && part.EndX < width && part.EndY < height;
            cells += isInside && part.AreaPx >= leastAreaPx ? 1 : 0;
        }

        return cells;
    }

    private static void ClearAround(bool[] rest, int x, int y, int width, int height, int reach)
    {
        var (left, right) = (Math.Max(x - reach, 0), Math.Min(x + reach + 1, width));
        for (var row = Math.Max(y - reach, 0); row <= Math.Min(y + reach, height - 1); row++)
        {
            rest.AsSpan((row * width) + left, right - left).Clear();
        }
    }
}
