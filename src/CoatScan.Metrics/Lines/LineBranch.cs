namespace CoatScan.Metrics.Lines;

/// <summary>A stretch of line between ends or junctions.</summary>
/// <param name="LengthPx">Length along the line, pixels.</param>
/// <param name="ChordX">From one end to the other, columns.</param>
/// <param name="ChordY">From one end to the other, rows.</param>
/// <param name="MiddleX">Column of the middle pixel.</param>
/// <param name="MiddleY">Row of the middle pixel.</param>
internal readonly record struct LineBranch(double LengthPx, double ChordX, double ChordY, int MiddleX, int MiddleY)
{
    internal double ChordPx => Math.Sqrt((ChordX * ChordX) + (ChordY * ChordY));
}
