namespace CoatScan.Findings;

/// <summary>A rectangle of one photo, origin top left, after orientation.</summary>
/// <param name="PhotoIndex">Index into the photos of the request, from 0.</param>
/// <param name="XPx">Left edge, pixels of the original photo.</param>
/// <param name="YPx">Top edge, pixels.</param>
/// <param name="WidthPx">Width, pixels, at least <see cref="LeastSidePx"/>.</param>
/// <param name="HeightPx">Height, pixels, at least <see cref="LeastSidePx"/>.</param>
public sealed record PhotoZone(int PhotoIndex, int XPx, int YPx, int WidthPx, int HeightPx)
{
    /// <summary>Shortest side, pixels: two blocks of a block-coded photo.</summary>
    public const int LeastSidePx = 16;
}
