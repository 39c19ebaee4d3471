namespace CoatScan.DemoPanels.Surface;

/// <summary>The pixels around a shape, cut to the picture: columns [X0, X1), rows [Y0, Y1).</summary>
internal readonly record struct PixelBox(int X0, int Y0, int X1, int Y1)
{
    public static PixelBox Around(float x, float y, float reachPx, int width, int height) => new(
        Math.Clamp((int)MathF.Floor(x - reachPx), 0, width),
        Math.Clamp((int)MathF.Floor(y - reachPx), 0, height),
        Math.Clamp((int)MathF.Ceiling(x + reachPx) + 1, 0, width),
        Math.Clamp((int)MathF.Ceiling(y + reachPx) + 1, 0, height));
}
