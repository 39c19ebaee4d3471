namespace CoatScan.Metrics.Marks;

/// <summary>The paint around a spot: a plane through lightness, so that light falling off across the spot does not shift its edge.</summary>
/// <param name="Level">L* at the spot's center.</param>
/// <param name="SlopeX">L* per pixel to the right.</param>
/// <param name="SlopeY">L* per pixel down.</param>
/// <param name="Scatter">0.7413 interquartile ranges around that plane, the standard deviation for normal scatter, L*.</param>
/// <param name="OpenShare">Share of directions in which the paint comes back at the rim, [0, 1]; 1 for a spot that stands alone.</param>
internal readonly record struct Surround(float Level, float SlopeX, float SlopeY, float Scatter, float OpenShare)
{
    /// <summary>The edge of a reflection that runs across; null for none.</summary>
    internal ReflectionStep? Step { get; init; }

    internal float At(float dx, float dy) => Level + (SlopeX * dx) + (SlopeY * dy) + (Step?.At(dx, dy) ?? 0.0f);
}
