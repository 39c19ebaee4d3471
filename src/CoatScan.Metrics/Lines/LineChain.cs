namespace CoatScan.Metrics.Lines;

/// <summary>A line as the eye follows it: paths that go straight on through the nodes.</summary>
/// <param name="Xs">Columns along it, pixels.</param>
/// <param name="Ys">Rows along it, pixels.</param>
/// <param name="LengthPx">Length, pixels.</param>
/// <param name="FreeEnds">Ends that meet nothing, 0 to 2.</param>
internal sealed record LineChain(double[] Xs, double[] Ys, double LengthPx, int FreeEnds)
{
    /// <summary>From one end to the other, pixels.</summary>
    internal double ChordPx => Distance(0, Xs.Length - 1);

    /// <summary>Distance of two of its points, pixels.</summary>
    internal double Distance(int first, int second)
    {
        var (dx, dy) = (Xs[second] - Xs[first], Ys[second] - Ys[first]);
        return Math.Sqrt((dx * dx) + (dy * dy));
    }
}
