namespace CoatScan.Metrics;

/// <summary>What a pixel measures at every place of a photo that looks at a flat panel, also aslant.</summary>
/// <remarks>
/// <para>Places are pixels of the planes; (0, 0) is the corner of the first pixel. Beyond the horizon of a tilted panel there is no
/// scale: null.</para>
/// <para>Uncertainties are relative, 95 % half widths: the covariance of the fitted homography, taken along to the place by its
/// derivatives, and a tolerance of the reference itself, added in squares. Not in them: a panel that is curved, and the distortion of
/// the lens.</para>
/// </remarks>
public sealed class PlaneScale
{
    private const int Elements = 8;
    private const double Derivation = 1e-6;

    // Grid and directions over which the spread is taken.
    private const int SpreadSteps = 16;
    private const int SpreadDirections = 6;
    private const double SpreadShare = 0.95;

    private readonly double[] _map;
    private readonly double[,] _covariance;
    private readonly double _centerX;
    private readonly double _centerY;
    private readonly double _pxPerUnit;
    private readonly double _mmPerUnit;
    private readonly double _tolerance;

    /// <summary>A scale from a homography that was fitted near its center.</summary>
    /// <param name="map">Eight elements, row by row, the ninth is 1: from ((x - center) / pxPerUnit, ...) to units on the panel.</param>
    /// <param name="covariance">Their covariance, 8 x 8.</param>
    /// <param name="center">The place that the map has in the middle, pixels.</param>
    /// <param name="pxPerUnit">Pixels that one unit of the map's input takes, above 0.</param>
    /// <param name="mmPerUnit">Millimeters of one unit of the map's output, above 0.</param>
    /// <param name="tolerance">Relative uncertainty of <paramref name="mmPerUnit"/>, 95 % half width.</param>
    /// <exception cref="ArgumentException">The map or its covariance has another size, or a number is out of range.</exception>
    public PlaneScale(
        double[] map, double[,] covariance, (double X, double Y) center, double pxPerUnit, double mmPerUnit, double tolerance)
    {
        ArgumentNullException.ThrowIfNull(map);
        ArgumentNullException.ThrowIfNull(covariance);
        if (map.Length != Elements || covariance.GetLength(0) != Elements || covariance.GetLength(1) != Elements)
        {
            throw new ArgumentException("A homography has eight free elements.", nameof(map));
        }

        if (!(pxPerUnit > 0 && mmPerUnit > 0 && tolerance >= 0) || !double.IsFinite(pxPerUnit + mmPerUnit + tolerance))
        {
            throw new ArgumentException("Units must be above 0 and the tolerance 0 or more.", nameof(pxPerUnit));
        }

        _map = map;
        _covariance = covariance;
        (_centerX, _centerY) = center;
        _pxPerUnit = pxPerUnit;
        _mmPerUnit = mmPerUnit;
        _tolerance = tolerance;
    }

    /// <summary>The same everywhere: a panel that the camera looks at squarely.</summary>
    /// <param name="mmPerPx">Millimeters per pixel, above 0.</param>
    /// <param name="uncertainty">Relative, 95 % half width.</param>
    public static PlaneScale Constant(double mmPerPx, double uncertainty) =>
        new([1, 0, 0, 0, 1, 0, 0, 0], new double[Elements, Elements], (0, 0), 1, mmPerPx, uncertainty);

    /// <summary>The same panel where a reference says another size: everything times a factor.</summary>
    /// <param name="factor">Above 0.</param>
    /// <param name="tolerance">Relative uncertainty of the other reference, 95 % half width.</param>
    public PlaneScale Times(double factor, double tolerance) =>
        new(_map, _covariance, (_centerX, _centerY), _pxPerUnit, _mmPerUnit * factor, tolerance);

    /// <summary>The same scale for a picture with more pixels.</summary>
    /// <param name="pxPerPx">Its pixels per pixel of this one, above 0.</param>
    public PlaneScale Enlarged(double pxPerPx) =>
        new(_map, _covariance, (_centerX * pxPerPx, _centerY * pxPerPx), _pxPerUnit * pxPerPx, _mmPerUnit, _tolerance);

    /// <summary>Millimeters per pixel at a place, the mean of all directions: root of area over area.</summary>
    public double? MmPerPxAt(double x, double y) => Math.Sqrt(AreaMm2PerPx2At(x, y) ?? double.NaN) is var root && double.IsFinite(root) ? root : null;

    /// <summary>Square millimeters per square pixel at a place.</summary>
    public double? AreaMm2PerPx2At(double x, double y)
    {
        double unit = _mmPerUnit / _pxPerUnit;
        return Area(_map, (x - _centerX) / _pxPerUnit, (y - _centerY) / _pxPerUnit) * unit * unit;
    }

    /// <summary>Length on the panel between two places, millimeters, in whatever direction.</summary>
    public double? LengthMm(double startX, double startY, double endX, double endY) =>
        ToPanel(startX, startY) is { } start && ToPanel(endX, endY) is { } end
            ? Math.Sqrt(((end.XMm - start.XMm) * (end.XMm - start.XMm)) + ((end.YMm - start.YMm) * (end.YMm - start.YMm)))
            : null;

    /// <summary>Relative uncertainty of <see cref="MmPerPxAt"/>, 95 % half width; an area has twice that.</summary>
    public double? UncertaintyAt(double x, double y)
    {
        double u = (x - _centerX) / _pxPerUnit;
        double v = (y - _centerY) / _pxPerUnit;
        if (Area(_map, u, v) is not { } area)
        {
            return null;
        }

        // Half the change of the area's logarithm is the change of the length's.
        Span<double> slopes = stackalloc double[Elements];
        var moved = (double[])_map.Clone();
        for (int i = 0; i < Elements; i++)
        {
            moved[i] = _map[i] + Derivation;
            slopes[i] = Area(moved, u, v) is { } beside ? Math.Log(beside / area) / (2 * Derivation) : 0;
            moved[i] = _map[i];
        }

        double variance = 0;
        for (int i = 0; i < Elements; i++)
        {
            for (int j = 0; j < Elements; j++)
            {
                variance += slopes[i] * slopes[j] * _covariance[i, j];
            }
        }

        double fit = 1.96 * Math.Sqrt(Math.Max(0, variance));
        return Math.Sqrt((fit * fit) + (_tolerance * _tolerance));
    }

    /// <summary>How far one number for the whole photo is off: 95 % of all places and directions are within, relative, at most 1.</summary>
    /// <param name="width">Width of the planes, pixels.</param>
    /// <param name="height">Height of the planes, pixels.</param>
    /// <param name="mmPerPx">The one number.</param>
    public double SpreadOver(int width, int height, double mmPerPx)
    {
        var off = new double[SpreadSteps * SpreadSteps * SpreadDirections];
        int count = 0;
        for (int row = 0; row < SpreadSteps; row++)
        {
            for (int column = 0; column < SpreadSteps; column++)
            {
                double x = (column + 0.5) * width / SpreadSteps;
                double y = (row + 0.5) * height / SpreadSteps;
                for (int direction = 0; direction < SpreadDirections; direction++)
                {
                    // A pixel long: short against any change of scale.
                    var (sin, cos) = Math.SinCos(direction * Math.PI / SpreadDirections);
                    double length = LengthMm(x - (cos / 2), y - (sin / 2), x + (cos / 2), y + (sin / 2)) ?? double.PositiveInfinity;
                    off[count++] = Math.Min(1, Math.Abs((length / mmPerPx) - 1));
                }
            }
        }

        Array.Sort(off);
        return off[(int)(SpreadShare * (count - 1))];
    }

    private static double? Area(double[] map, double u, double v)
    {
        double w = (map[6] * u) + (map[7] * v) + 1;
        double determinant = (map[0] * (map[4] - (map[5] * map[7])))
            - (map[1] * (map[3] - (map[5] * map[6])))
            + (map[2] * ((map[3] * map[7]) - (map[4] * map[6])));
        double area = Math.Abs(determinant) / (w * w * w);
        return w > 0 && area > 0 && double.IsFinite(area) ? area : null;
    }

    private (double XMm, double YMm)? ToPanel(double x, double y)
    {
        double u = (x - _centerX) / _pxPerUnit;
        double v = (y - _centerY) / _pxPerUnit;
        double w = (_map[6] * u) + (_map[7] * v) + 1;
        return w > 0
            ? (_mmPerUnit * ((_map[0] * u) + (_map[1] * v) + _map[2]) / w, _mmPerUnit * ((_map[3] * u) + (_map[4] * v) + _map[5]) / w)
            : null;
    }
}
