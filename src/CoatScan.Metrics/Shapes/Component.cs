namespace CoatScan.Metrics.Shapes;

/// <summary>A connected set of pixels and its moments.</summary>
public sealed class Component
{
    private double _sumX;
    private double _sumY;
    private double _sumXX;
    private double _sumXY;
    private double _sumYY;

    /// <summary>Number of pixels, at least 1.</summary>
    public int AreaPx { get; private set; }

    /// <summary>First column of the bounding box.</summary>
    public int StartX { get; private set; } = int.MaxValue;

    /// <summary>First row of the bounding box.</summary>
    public int StartY { get; private set; } = int.MaxValue;

    /// <summary>Column behind the bounding box.</summary>
    public int EndX { get; private set; }

    /// <summary>Row behind the bounding box.</summary>
    public int EndY { get; private set; }

    /// <summary>Column of the center of mass.</summary>
    public double CenterX => _sumX / AreaPx;

    /// <summary>Row of the center of mass.</summary>
    public double CenterY => _sumY / AreaPx;

    /// <summary>Diameter of the disk of equal area, pixels.</summary>
    public double EquivalentDiameterPx => Math.Sqrt(4.0 * AreaPx / Math.PI);

    /// <summary>Full axes of the ellipse of equal second moments, pixels: exact for an ellipse, 15 % long for a bar.</summary>
    /// <remarks>Each pixel counts as a unit square, so that a single row has a width above 0.</remarks>
    public (double MajorPx, double MinorPx) Axes()
    {
        var xx = (_sumXX / AreaPx) - (CenterX * CenterX) + (1.0 / 12.0);
        var yy = (_sumYY / AreaPx) - (CenterY * CenterY) + (1.0 / 12.0);
        var xy = (_sumXY / AreaPx) - (CenterX * CenterY);
        var middle = (xx + yy) / 2.0;
        var spread = Math.Sqrt((((xx - yy) / 2.0) * ((xx - yy) / 2.0)) + (xy * xy));
        return (4.0 * Math.Sqrt(middle + spread), 4.0 * Math.Sqrt(Math.Max(0.0, middle - spread)));
    }

    internal void Add(int y, int startX, int endX)
    {
        double length = endX - startX;
        var sumX = (startX + endX - 1) * length / 2.0;
        AreaPx += endX - startX;
        StartX = Math.Min(StartX, startX);
        EndX = Math.Max(EndX, endX);
        StartY = Math.Min(StartY, y);
        EndY = Math.Max(EndY, y + 1);
        _sumX += sumX;
        _sumY += y * length;
        _sumXX += SquaresBelow(endX) - SquaresBelow(startX);
        _sumXY += y * sumX;
        _sumYY += (double)y * y * length;
    }

    /// <summary>Takes in another component; the two share no pixel.</summary>
    internal void Add(Component other)
    {
        AreaPx += other.AreaPx;
        StartX = Math.Min(StartX, other.StartX);
        EndX = Math.Max(EndX, other.EndX);
        StartY = Math.Min(StartY, other.StartY);
        EndY = Math.Max(EndY, other.EndY);
        _sumX += other._sumX;
        _sumY += other._sumY;
        _sumXX += other._sumXX;
        _sumXY += other._sumXY;
        _sumYY += other._sumYY;
    }

    private static double SquaresBelow(double n) => (n - 1.0) * n * ((2.0 * n) - 1.0) / 6.0;
}
