namespace CoatScan.DemoPanels;

internal static class MaskStatistics
{
    /// <summary>
    /// Mean over pixels just outside the mask of the largest channel difference to the nearest masked pixel along the row,
    /// taken a few pixels to both sides of the outline, in 8-bit levels.
    /// </summary>
    public static double ColorDifferenceAcrossOutline(DemoPanel panel, int reachPx)
    {
        double sum = 0;
        var count = 0;
        for (var y = 0; y < panel.HeightPx; y++)
        {
            for (var x = reachPx; x < panel.WidthPx - reachPx; x++)
            {
                var at = (y * panel.WidthPx) + x;
                var outside = at - (reachPx / 2);
                var inside = at + (reachPx / 2);
                if (!panel.Mask[outside] && !panel.Mask[at - 1] && panel.Mask[at] && panel.Mask[inside])
                {
                    var largest = 0;
                    for (var channel = 0; channel < 3; channel++)
                    {
                        largest = Math.Max(
                            largest, Math.Abs(panel.Rgb[(3 * outside) + channel] - panel.Rgb[(3 * inside) + channel]));
                    }

                    sum += largest;
                    count++;
                }
            }
        }

        Assert.True(count > 0, "The mask has no outline to look across.");
        return sum / count;
    }
}
