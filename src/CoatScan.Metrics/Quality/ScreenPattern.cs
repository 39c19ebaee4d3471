namespace CoatScan.Metrics.Quality;

/// <summary>Share of a photo, [0, 1], that shows the fine lattice of a display, or the moire of one.</summary>
/// <remarks>
/// <para>Per tile of 128 x 128 px the spectrum behind a Hann window. A lattice has sharp peaks in two directions; paint, edges and
/// bundles of lines have none, or in one direction. A peak must stand out from all frequencies four to six steps around it, and both
/// must carry contrast. The axes' multiples of 1/8 of the original, where block coding has its own peaks, are left out.</para>
/// <para>Input: CIE L*. Up to 16 tiles, evenly spread; tiles that are mostly clipped or dark are not counted. Null with fewer than 4
/// tiles.</para>
/// <para>A perforated or woven surface is a lattice too. Cost: constant, 16 tiles. Deterministic. Source: a periodic signal is a line in
/// its spectrum; limits are our own.</para>
/// </remarks>
public static class ScreenPattern
{
    private const int TilesPerSide = 4;
    private const int LeastTiles = 4;
    private const double LeastLightness = 5.0;
    private const double MostClipped = 0.3;

    /// <summary>Measures a panel's photo; null where too few tiles can tell.</summary>
    public static double? Measure(PanelPlanes panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        var spectrum = new LatticeSpectrum(panel.OriginalPxPerPx);
        var tiles = 0;
        var hits = 0;
        foreach (var top in Starts(panel.Height))
        {
            foreach (var left in Starts(panel.Width))
            {
                if (IsUsable(panel, left, top))
                {
                    tiles++;
                    hits += spectrum.HasLattice(panel.Lightness, left, top) ? 1 : 0;
                }
            }
        }

        return tiles < LeastTiles ? null : (double)hits / tiles;
    }

    private static IEnumerable<int> Starts(int length)
    {
        var count = Math.Min(TilesPerSide, length / LatticeSpectrum.SidePx);
        for (var i = 0; i < count; i++)
        {
            yield return (int)((long)i * (length - LatticeSpectrum.SidePx) / Math.Max(1, count - 1));
        }
    }

    private static bool IsUsable(PanelPlanes panel, int left, int top)
    {
        var clipped = 0;
        var sum = 0.0;
        for (var y = top; y < top + LatticeSpectrum.SidePx; y++)
        {
            var start = (y * panel.Width) + left;
            clipped += panel.Clipped.AsSpan(start, LatticeSpectrum.SidePx).Count(true);
            foreach (var value in panel.Lightness.Values.AsSpan(start, LatticeSpectrum.SidePx))
            {
                sum += value;
            }
        }

        const int count = LatticeSpectrum.SidePx * LatticeSpectrum.SidePx;
        return clipped <= MostClipped * count && sum >= LeastLightness * count;
    }
}
