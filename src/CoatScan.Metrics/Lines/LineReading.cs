namespace CoatScan.Metrics.Lines;

/// <summary>What the lines of a plane are like; lengths in pixels of that plane.</summary>
internal sealed record LineReading
{
    /// <summary>How near to the frame a line must end to run out of the photo, pixels.</summary>
    private const double FramePx = 12.0;

    // How much a threshold may be off before a stretch of line would not have been found.
    private const float DoubtfulMultiple = 1.25f;

    // Under this the gap between the two edges of a wide stroke would count as a cell.
    private const int LeastCellPx = 36;
    private const int WidenPx = 2;

    private LineReading(IReadOnlyList<LineChain> lines, LineDirections directions, LineShapes shapes) =>
        (Lines, Directions, Shapes) = (lines, directions, shapes);

    /// <summary>The lines.</summary>
    internal IReadOnlyList<LineChain> Lines { get; }

    /// <summary>Which way they run.</summary>
    internal LineDirections Directions { get; }

    /// <summary>What they look like one by one.</summary>
    internal LineShapes Shapes { get; }

    /// <summary>Summed length, 0 or more.</summary>
    internal double LengthPx { get; private init; }

    /// <summary>Length that a quarter more of threshold would not have found.</summary>
    internal double DoubtfulPx { get; private init; }

    /// <summary>Places where lines meet or cross.</summary>
    internal int Junctions { get; private init; }

    /// <summary>Path ends at those places beyond two each: how often one line lies over another.</summary>
    internal int Overlaps { get; private init; }

    /// <summary>Cells that lines enclose.</summary>
    internal int Cells { get; private init; }

    /// <summary>Ends that meet nothing.</summary>
    internal int FreeEnds { get; private init; }

    internal static LineReading Of(LineMask mask)
    {
        var (width, height) = (mask.Response.Width, mask.Response.Height);
        var cells = LineCells.Count(mask.Flags, width, height, WidenPx, LeastCellPx);
        var graph = LineGraph.Of(mask.Flags, width, height, LineFinder.ShortestPx);
        var chains = LineChains.Of(graph).FindAll(IsNoGap);
        var pieces = LineChains.Unjoined(graph).FindAll(IsNoGap);
        var degrees = graph.Degrees();
        return new(chains, new(chains, width, height), new(chains, pieces, chain => RunsOut(chain, width, height)))
        {
            LengthPx = chains.Sum(chain => chain.LengthPx),
            DoubtfulPx = chains.Sum(chain => Doubtful(chain, mask)),
            Junctions = degrees.Count(degree => degree >= 3),
            Overlaps = degrees.Sum(degree => Math.Max(0, degree - 2)),
            Cells = cells,
            FreeEnds = chains.Sum(chain => chain.FreeEnds),
        };

        bool IsNoGap(LineChain chain) => !LineGap.Is(chain, mask.Response);
    }

    private static double Doubtful(LineChain chain, LineMask mask)
    {
        var (weak, peak) = (0, 0.0f);
        for (var i = 0; i < chain.Xs.Length; i++)
        {
            var response = Math.Abs(mask.Response[(int)chain.Xs[i], (int)chain.Ys[i]]);
            weak += response < DoubtfulMultiple * mask.Threshold ? 1 : 0;
            peak = Math.Max(peak, response);
        }

        var isWeak = peak < DoubtfulMultiple * LineFinder.SeedMultiple * mask.Threshold;
        return chain.LengthPx * (isWeak ? 1.0 : (double)weak / chain.Xs.Length);
    }

    private static bool RunsOut(LineChain chain, int width, int height)
    {
        return IsAtFrame(0) && IsAtFrame(chain.Xs.Length - 1);

        bool IsAtFrame(int i) => chain.Xs[i] < FramePx || chain.Ys[i] < FramePx
            || chain.Xs[i] >= width - FramePx || chain.Ys[i] >= height - FramePx;
    }
}
