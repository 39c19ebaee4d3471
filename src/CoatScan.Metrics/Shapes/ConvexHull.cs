namespace CoatScan.Metrics.Shapes;

/// <summary>Area of the convex hull of pixels given as runs, each pixel a unit square.</summary>
/// <remarks>Source: Andrew, Information Processing Letters 9(5), 216-219, 1979 (monotone chain; from memory). Cost: O(n log
/// n).</remarks>
internal static class ConvexHull
{
    internal static double AreaPx(IReadOnlyList<PixelRun> runs)
    {
        var points = new List<(long X, long Y)>();
        foreach (var run in runs)
        {
            points.AddRange([(run.StartX, run.Y), (run.EndX, run.Y), (run.StartX, run.Y + 1), (run.EndX, run.Y + 1)]);
        }

        points.Sort();
        var hull = Half(points);
        points.Reverse();
        hull.AddRange(Half(points));
        var twice = 0L;
        for (var i = 0; i < hull.Count; i++)
        {
            var next = hull[(i + 1) % hull.Count];
            twice += (hull[i].X * next.Y) - (next.X * hull[i].Y);
        }

        return 0.5 * Math.Abs(twice);
    }

    // Left turns only; the last point begins the other half.
    private static List<(long X, long Y)> Half(List<(long X, long Y)> points)
    {
        var hull = new List<(long X, long Y)>();
        foreach (var point in points)
        {
            while (hull.Count > 1 && Turn(hull[^2], hull[^1], point) <= 0)
            {
                hull.RemoveAt(hull.Count - 1);
            }

            hull.Add(point);
        }

        hull.RemoveAt(hull.Count - 1);
        return hull;
    }

    private static long Turn((long X, long Y) a, (long X, long Y) b, (long X, long Y) c) =>
        ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
}
