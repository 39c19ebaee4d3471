namespace CoatScan.Metrics.Lines;

/// <summary>A stretch of thinned line between ends or nodes.</summary>
/// <param name="Pixels">Indices of its pixels from one end to the other, at least 1.</param>
/// <param name="StartNode">Node that the first pixel leads to; below 0 at a free end.</param>
/// <param name="EndNode">Node that the last pixel leads to; below 0 at a free end.</param>
/// <param name="LengthPx">Length along it, to the centers of its nodes, pixels.</param>
internal sealed record LinePath(IReadOnlyList<int> Pixels, int StartNode, int EndNode, double LengthPx)
{
    /// <summary>Node of one of the ends.</summary>
    internal int NodeAt(bool atEnd) => atEnd ? EndNode : StartNode;

    /// <summary>Whether it hangs on the network with one end only.</summary>
    internal bool IsSpur => (StartNode < 0) != (EndNode < 0);

    /// <summary>Whether it touches nothing.</summary>
    internal bool IsAlone => StartNode < 0 && EndNode < 0;
}
