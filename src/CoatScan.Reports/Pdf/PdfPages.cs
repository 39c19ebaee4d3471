namespace CoatScan.Reports;

/// <summary>Divides strips among pages.</summary>
internal static class PdfPages
{
    /// <summary>The strips of each page; none is higher than a page but one that is so by itself.</summary>
    public static List<List<Strip>> Divide(IReadOnlyList<Strip> strips, double height)
    {
        var pages = new List<List<Strip>>();
        List<Strip> page = [];
        double used = 0;
        void Turn()
        {
            if (page.Any(strip => !strip.IsSpace))
            {
                pages.Add(page);
            }

            page = [];
            used = 0;
        }

        for (int at = 0; at < strips.Count; at++)
        {
            Strip strip = strips[at];
            bool fits = used + Needed(strips, at, height) <= height;
            if (!fits && used > 0 && !(strip.IsSpace && !strip.KeepsWithNext))
            {
                Turn();
                if (strip.Head is { } head)
                {
                    page.Add(head);
                    used += head.Height;
                }
            }

            if (strip.IsSpace && used == 0)
            {
                continue;
            }

            page.Add(strip);
            used += strip.Height;
        }

        Turn();
        return pages;
    }

    // What must stand on one page from here on: a heading with its first line, an item with all its lines. A chain that no
    // page could hold is not kept together.
    private static double Needed(IReadOnlyList<Strip> strips, int at, double height)
    {
        double needed = strips[at].Height;
        for (int next = at; next + 1 < strips.Count && strips[next].KeepsWithNext && needed <= height; next++)
        {
            needed += strips[next + 1].Height;
        }

        return needed <= height ? needed : strips[at].Height;
    }
}
