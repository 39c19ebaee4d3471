namespace CoatScan.Metrics.Marks;

/// <summary>A round head of a fastener, pixels.</summary>
internal readonly record struct FastenerHead(double X, double Y, double RadiusPx)
{
    internal bool Holds(Mark mark) => Math.Sqrt(((mark.CenterXPx - X) * (mark.CenterXPx - X)) + ((mark.CenterYPx - Y) * (mark.CenterYPx - Y))) <= RadiusPx;
}

/// <summary>Finds the round heads of screws and washers: a recess or hole with a second, round edge about it.</summary>
/// <remarks>
/// <para>From a clear mark 24 rays go out; on each the strongest line across it is looked for, from outside of the mark's own edge to 5 radii (60 px at
/// most): the rim of a head is a groove, or a bright line where it faces the light and a dark one where it does not, so that the sign says
/// nothing. A circle is fitted to those places by least squares (Kasa, IEEE Trans. Instrum. Meas. 25, 1976, from memory), four times, each time
/// without those farthest off. It is a head if on 17 rays there is a line of 3 L* or more within 8 % of the radius (1.5 px at least), it is 1.4
/// times as wide as the mark, which lies inside it, and the paint just inside of the circle is within 5 L* of that outside: a head is painted like
/// the panel, so that a chip with a bare layer around it is none.</para>
/// <para>Small and faint marks are not looked at, and none among more than 400 clear ones. Cost: by the number of clear marks. Deterministic. The limits are our own.</para>
/// </remarks>
internal static class FastenerHeads
{
    private const int Directions = RayDirections.Count;
    private const int LeastRays = 17;
    private const int MostMarks = 400;
    private const int Rounds = 4;
    private const int DroppedEachRound = 2;
    private const double LeastOverRadius = 1.4;
    private const double OuterOverRadius = 5.0;
    private const double MostReachPx = 60.0;
    private const double LeastContrast = 3.0;
    private const double Tolerance = 0.08;
    private const double LeastTolerancePx = 1.5;
    private const double LargestDifference = 5.0;
    private const int ReachPx = 3;

    /// <summary>Heads about any of the marks.</summary>
    internal static List<FastenerHead> Find(List<Mark> marks, Plane lightness)
    {
        var heads = new List<FastenerHead>();
        var clear = marks.FindAll(mark => !SpotMetrics.IsDoubtful(mark) && !mark.IsRing);
        foreach (var mark in clear.Count <= MostMarks ? clear : [])
        {
            if (!heads.Exists(head => head.Holds(mark)) && About(mark, lightness) is { } found)
            {
                heads.Add(found);
            }
        }

        return heads;
    }

    private static FastenerHead? About(Mark mark, Plane lightness)
    {
        var radius = 0.5 * mark.DiameterPx;
        var (inner, outer) = ((int)radius + ReachPx + 2, (int)Math.Min(OuterOverRadius * radius, MostReachPx));
        var places = new List<(double X, double Y)>();
        foreach (var (unitX, unitY) in RayDirections.Units)
        {
            if (Rim(mark, lightness, unitX, unitY, inner, outer) is { } rim)
            {
                places.Add((mark.CenterXPx + (rim * unitX), mark.CenterYPx + (rim * unitY)));
            }
        }

        var all = places.ToArray();
        for (var round = 0; round < Rounds && places.Count >= LeastRays - DroppedEachRound; round++)
        {
            if (Fit(places) is not { } head || !head.Holds(mark))
            {
                return null;
            }

            if (all.Count(place => Off(head, place) <= Math.Max(LeastTolerancePx, Tolerance * head.RadiusPx)) >= LeastRays)
            {
                return head.RadiusPx >= LeastOverRadius * radius && IsPaintedAlike(head, lightness) ? head : null;
            }

            places.Sort((first, second) => Off(head, first).CompareTo(Off(head, second)));
            places.RemoveRange(places.Count - DroppedEachRound, DroppedEachRound);
        }

        return null;
    }

    // Distance of the strongest line across a ray; null where there is none, or the ray leaves the photo.
    private static double? Rim(Mark mark, Plane lightness, float unitX, float unitY, int inner, int outer)
    {
        float Along(int distance) => At(lightness, mark.CenterXPx + (distance * unitX), mark.CenterYPx + (distance * unitY));
        var (best, at) = (LeastContrast, -1);
        for (var distance = inner; distance <= outer; distance++)
        {
            var line = Math.Abs(Along(distance) - (0.5 * (Along(distance - ReachPx) + Along(distance + ReachPx))));
            (best, at) = line > best ? (line, distance) : (best, at);
        }

        return at < 0 ? null : at;
    }

    // x^2 + y^2 = 2 a x + 2 b y + c about the mean of the places.
    private static FastenerHead? Fit(List<(double X, double Y)> places)
    {
        var (meanX, meanY) = (places.Average(place => place.X), places.Average(place => place.Y));
        double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0, z = 0;
        foreach (var (x, y) in places)
        {
            var (u, v) = (x - meanX, y - meanY);
            var square = (u * u) + (v * v);
            (xx, xy, yy, xz, yz, z) = (xx + (u * u), xy + (u * v), yy + (v * v), xz + (u * square), yz + (v * square), z + square);
        }

        var determinant = (xx * yy) - (xy * xy);
        if (determinant <= 0.0)
        {
            return null;
        }

        var (a, b) = (0.5 * ((xz * yy) - (yz * xy)) / determinant, 0.5 * ((yz * xx) - (xz * xy)) / determinant);
        return new(meanX + a, meanY + b, Math.Sqrt((a * a) + (b * b) + (z / places.Count)));
    }

    private static double Off(FastenerHead head, (double X, double Y) place) => Math.Abs(
        Math.Sqrt(((place.X - head.X) * (place.X - head.X)) + ((place.Y - head.Y) * (place.Y - head.Y))) - head.RadiusPx);

    private static bool IsPaintedAlike(FastenerHead head, Plane lightness)
    {
        Span<float> inside = stackalloc float[Directions];
        Span<float> outside = stackalloc float[Directions];
        for (var i = 0; i < Directions; i++)
        {
            var (unitX, unitY) = RayDirections.Units[i];
            var (near, far) = (head.RadiusPx - ReachPx, head.RadiusPx + ReachPx);
            inside[i] = At(lightness, head.X + (near * unitX), head.Y + (near * unitY));
            outside[i] = At(lightness, head.X + (far * unitX), head.Y + (far * unitY));
        }

        inside.Sort();
        outside.Sort();
        return Math.Abs(inside[Directions / 2] - outside[Directions / 2]) <= LargestDifference;
    }

    private static float At(Plane lightness, double x, double y)
    {
        var (column, row) = ((int)Math.Round(x), (int)Math.Round(y));
        return (uint)column < (uint)lightness.Width && (uint)row < (uint)lightness.Height ? lightness[column, row] : float.NaN;
    }
}
