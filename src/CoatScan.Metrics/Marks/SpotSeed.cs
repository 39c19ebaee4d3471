namespace CoatScan.Metrics.Marks;

/// <summary>A place and a size at which a blob filter answers most: a spot may be there.</summary>
/// <param name="X">Column of the center, pixels.</param>
/// <param name="Y">Row of the center, pixels.</param>
/// <param name="RadiusPx">Radius of the disk that would answer so, pixels.</param>
/// <param name="Response">Scale-normalized Laplacian, L*; above 0 on dark blobs.</param>
internal readonly record struct SpotSeed(int X, int Y, float RadiusPx, float Response)
{
    /// <summary>1 where brighter than its surroundings, -1 where darker.</summary>
    internal float Sign => Response > 0.0f ? -1.0f : 1.0f;

    internal double Strength => Math.Abs(Response);

    internal double DistanceTo(int x, int y)
    {
        double dx = X - x;
        double dy = Y - y;
        return Math.Sqrt((dx * dx) + (dy * dy));
    }
}
