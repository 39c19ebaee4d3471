namespace CoatScan.Metrics.Marks;

/// <summary>A straight edge of a reflection across a spot: lightness rises along one direction.</summary>
/// <param name="Height">Rise, L*, above 0.</param>
/// <param name="UnitX">Direction of the rise, columns; with <paramref name="UnitY"/> of length 1.</param>
/// <param name="UnitY">Direction of the rise, rows.</param>
/// <param name="PlacePx">Where half of it is reached, pixels from the spot's center along the direction.</param>
/// <param name="WidthPx">Scale of the logistic rise, pixels: from 27 % to 73 % in two of them.</param>
internal sealed record ReflectionStep(float Height, float UnitX, float UnitY, float PlacePx, float WidthPx)
{
    internal float At(float dx, float dy) => Height * Share(dx, dy);

    /// <summary>Share of the rise, [0, 1].</summary>
    internal float Share(float dx, float dy) => Share(((UnitX * dx) + (UnitY * dy) - PlacePx) / WidthPx);

    internal static float Share(float widths) => 1.0f / (1.0f + MathF.Exp(-widths));
}
