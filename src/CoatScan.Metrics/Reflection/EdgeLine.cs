namespace CoatScan.Metrics.Reflection;

/// <summary>Straight line through a chain of edge points, and the chain's rough distance from it along its length.</summary>
/// <remarks>Least squares of the distances to the line (principal axis of the points).</remarks>
internal sealed class EdgeLine
{
    private readonly double _centerX;
    private readonly double _centerY;
    private readonly double _alongX;
    private readonly double _alongY;
    private readonly double _startPx;

    /// <summary>A line through points of a plane that is <paramref name="scale"/> times smaller than the one to
    /// measure.</summary>
    internal EdgeLine(List<EdgePoint> chain, double scale)
    {
        var points = chain.ConvertAll(point => (X: ((point.X + 0.5) * scale) - 0.5, Y: ((point.Y + 0.5) * scale) - 0.5));
        var (towardX, towardY) = (0.0, 0.0);
        for (var i = 0; i < points.Count; i++)
        {
            _centerX += points[i].X / points.Count;
            _centerY += points[i].Y / points.Count;
            towardX += chain[i].ToBrightX;
            towardY += chain[i].ToBrightY;
        }

        (_alongX, _alongY) = PrincipalAxis(points, _centerX, _centerY);

        // The bright side lies toward positive distances: across is along turned by a quarter.
        if ((-_alongY * towardX) + (_alongX * towardY) < 0.0)
        {
            (_alongX, _alongY) = (-_alongX, -_alongY);
        }

        var (first, last) = (double.MaxValue, double.MinValue);
        foreach (var (x, y) in points)
        {
            var along = Along(x, y);
            first = Math.Min(first, along);
            last = Math.Max(last, along);
        }

        // The first place lies on a row or column of pixels: along an axis, places then need no interpolation between rows.
        var (center, step) = Math.Abs(_alongX) > Math.Abs(_alongY) ? (_centerX, _alongX) : (_centerY, _alongY);
        _startPx = (Math.Ceiling(center + (first * step)) - center) / step;
        _startPx = _startPx < first ? _startPx + 1.0 : _startPx;
        RoughPx = Rough(points, (int)Math.Floor(last - _startPx) + 1, scale);
    }

    /// <summary>Rough distance of the edge from the line at each whole pixel of its length.</summary>
    internal double[] RoughPx { get; }

    /// <summary>Unit vector along the line.</summary>
    internal (double X, double Y) Direction => (_alongX, _alongY);

    internal int LengthPx => RoughPx.Length;

    /// <summary>Column and row of the point at a place along the line and a distance from it toward the bright
    /// side.</summary>
    internal (double X, double Y) At(double alongPx, double acrossPx) => (
        _centerX + ((alongPx + _startPx) * _alongX) - (acrossPx * _alongY),
        _centerY + ((alongPx + _startPx) * _alongY) + (acrossPx * _alongX));

    private double Along(double x, double y) => ((x - _centerX) * _alongX) + ((y - _centerY) * _alongY);

    private double Across(double x, double y) => ((y - _centerY) * _alongX) - ((x - _centerX) * _alongY);

    private static (double X, double Y) PrincipalAxis(List<(double X, double Y)> points, double centerX, double centerY)
    {
        var (xx, yy, xy) = (0.0, 0.0, 0.0);
        foreach (var (x, y) in points)
        {
            xx += (x - centerX) * (x - centerX);
            yy += (y - centerY) * (y - centerY);
            xy += (x - centerX) * (y - centerY);
        }

        var angle = 0.5 * Math.Atan2(2.0 * xy, xx - yy);
        return (Math.Cos(angle), Math.Sin(angle));
    }

    // Means over cells of one pixel of the smaller plane; linear between the cells that hold points.
    private double[] Rough(List<(double X, double Y)> points, int length, double cellPx)
    {
        var cells = (int)(length / cellPx) + 1;
        var sums = new double[cells];
        var counts = new int[cells];
        foreach (var (x, y) in points)
        {
            var cell = Math.Clamp((int)((Along(x, y) - _startPx) / cellPx), 0, cells - 1);
            sums[cell] += Across(x, y);
            counts[cell]++;
        }

        var (places, values) = (new List<double>(), new List<double>());
        for (var i = 0; i < cells; i++)
        {
            if (counts[i] > 0)
            {
                places.Add((i + 0.5) * cellPx);
                values.Add(sums[i] / counts[i]);
            }
        }

        var rough = new double[length];
        var at = 0;
        for (var i = 0; i < length; i++)
        {
            while (at + 2 < places.Count && places[at + 1] < i)
            {
                at++;
            }

            var share = places.Count < 2 ? 0.0 : Math.Clamp((i - places[at]) / (places[at + 1] - places[at]), 0.0, 1.0);
            rough[i] = share == 0.0 ? values[at] : values[at] + (share * (values[at + 1] - values[at]));
        }

        return rough;
    }
}
