namespace CoatScan.Metrics.Reflection;

/// <summary>Linear red, green and blue on either side of an edge.</summary>
internal static class SideColors
{
    private const int Places = 64;

    /// <summary>Means over places along the edge, this far from it, and the share of the bright ones that are
    /// clipped.</summary>
    internal static (double[] Dark, double[] Bright, double ClippedShare) Of(PanelPlanes panel, EdgeLine line, double awayPx)
    {
        var (dark, _) = Mean(panel, line, -awayPx);
        var (bright, clipped) = Mean(panel, line, awayPx);
        return (dark, bright, clipped);
    }

    private static (double[] Color, double ClippedShare) Mean(PanelPlanes panel, EdgeLine line, double awayPx)
    {
        var color = new double[3];
        var (count, clipped) = (0, 0);
        for (var i = 0; i < Places; i++)
        {
            var along = (int)((i + 0.5) * line.LengthPx / Places);
            var (x, y) = line.At(along, line.RoughPx[along] + awayPx);
            if (x < 0.0 || y < 0.0 || x >= panel.Width || y >= panel.Height)
            {
                continue;
            }

            var at = ((int)y * panel.Width) + (int)x;
            color[0] += panel.Red.Values[at];
            color[1] += panel.Green.Values[at];
            color[2] += panel.Blue.Values[at];
            clipped += panel.Clipped[at] ? 1 : 0;
            count++;
        }

        return (Array.ConvertAll(color, sum => sum / Math.Max(1, count)), (double)clipped / Math.Max(1, count));
    }
}
