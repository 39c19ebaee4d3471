namespace CoatScan.Metrics.Marks;

/// <summary>Where rays that go out from the middle of a ring look at a plane, for seeds of one size.</summary>
internal sealed class RayPlaces
{
    /// <summary>Most places on a ray, and how far the first ones of two rays lie apart in the lists.</summary>
    internal const int Steps = 40;

    private const float ReachOverRadius = 2.6f;

    internal RayPlaces(float radiusPx, int width)
    {
        StepPx = Math.Max(0.5f, ReachOverRadius * radiusPx / Steps);
        Count = Math.Min(Steps, (int)(((ReachOverRadius * radiusPx) + 2.0f) / StepPx));
        Places = new (int X, int Y)[RayDirections.Count * Steps];
        for (var direction = 0; direction < RayDirections.Count; direction++)
        {
            var (unitX, unitY) = RayDirections.Units[direction];
            for (var i = 0; i < Count; i++)
            {
                Places[(direction * Steps) + i] = ((int)MathF.Round(i * StepPx * unitX), (int)MathF.Round(i * StepPx * unitY));
            }
        }

        Offsets = Array.ConvertAll(Places, place => (place.Y * width) + place.X);
        ReachPx = Places.Max(place => Math.Max(Math.Abs(place.X), Math.Abs(place.Y)));
    }

    /// <summary>Distance from place to place along a ray, pixels.</summary>
    internal float StepPx { get; }

    /// <summary>Places on a ray, at most <see cref="Steps"/>.</summary>
    internal int Count { get; }

    /// <summary>Places, pixels from the middle: ray by ray.</summary>
    internal (int X, int Y)[] Places { get; }

    /// <summary>The same as steps between samples of the plane.</summary>
    internal int[] Offsets { get; }

    /// <summary>Farthest place along either axis, pixels.</summary>
    internal int ReachPx { get; }
}
