namespace CoatScan.Metrics.Marks;

/// <summary>A closed rim around paint.</summary>
/// <param name="X">Column of the center, pixels.</param>
/// <param name="Y">Row of the center.</param>
/// <param name="RadiusPx">Radius of the disk of the area inside the rim's outer edge.</param>
/// <param name="ReachPx">Largest distance of the outer edge from the center.</param>
/// <param name="Contrast">Rim less paint, L*.</param>
internal readonly record struct Ring(int X, int Y, float RadiusPx, float ReachPx, float Contrast)
{
    /// <summary>Whether a seed has its center inside, or is the rim's own.</summary>
    internal bool Holds(SpotSeed seed) =>
        seed.DistanceTo(X, Y) < Math.Max(ReachPx + (0.2 * seed.RadiusPx), 0.75 * seed.RadiusPx);
}
