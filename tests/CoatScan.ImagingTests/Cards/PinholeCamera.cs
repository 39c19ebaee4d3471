using CoatScan.Imaging.Cards;

namespace CoatScan.ImagingTests.Cards;

/// <summary>A camera that looks at a card whose middle lies at a distance on its axis, or beside it.</summary>
internal sealed class PinholeCamera
{
    private readonly double _focalPx;
    private readonly double[] _xAxis;
    private readonly double[] _yAxis;
    private readonly double[] _normal;
    private readonly double[] _origin;
    private readonly double _offset;

    public PinholeCamera(
        double focalPx, double distanceMm, double shiftXMm, double shiftYMm, double tiltDegrees, double tiltTowardDegrees, double turnDegrees)
    {
        const double Degree = Math.PI / 180;
        _focalPx = focalPx;
        _origin = [shiftXMm, shiftYMm, distanceMm];

        // Turned in its plane, then tilted about an axis in the picture: Rodrigues' rotation.
        double ax = Math.Cos(tiltTowardDegrees * Degree);
        double ay = Math.Sin(tiltTowardDegrees * Degree);
        double[] Tilted(double x, double y)
        {
            double along = (ax * x) + (ay * y);
            double cos = Math.Cos(tiltDegrees * Degree);
            double sin = Math.Sin(tiltDegrees * Degree);
            return
            [
                (x * cos) + (ax * along * (1 - cos)),
                (y * cos) + (ay * along * (1 - cos)),
                ((ax * y) - (ay * x)) * sin,
            ];
        }

        double turnCos = Math.Cos(turnDegrees * Degree);
        double turnSin = Math.Sin(turnDegrees * Degree);
        _xAxis = Tilted(turnCos, turnSin);
        _yAxis = Tilted(-turnSin, turnCos);
        _normal =
        [
            (_xAxis[1] * _yAxis[2]) - (_xAxis[2] * _yAxis[1]),
            (_xAxis[2] * _yAxis[0]) - (_xAxis[0] * _yAxis[2]),
            (_xAxis[0] * _yAxis[1]) - (_xAxis[1] * _yAxis[0]),
        ];
        _offset = Dot(_normal, _origin);
    }

    public (double X, double Y) ToPx(double xMm, double yMm)
    {
        double u = xMm - (ScaleCard.WidthMm / 2);
        double v = yMm - (ScaleCard.HeightMm / 2);
        double z = _origin[2] + (u * _xAxis[2]) + (v * _yAxis[2]);
        return (
            (CardScene.WidthPx / 2.0) + (_focalPx * (_origin[0] + (u * _xAxis[0]) + (v * _yAxis[0])) / z),
            (CardScene.HeightPx / 2.0) + (_focalPx * (_origin[1] + (u * _xAxis[1]) + (v * _yAxis[1])) / z));
    }

    public (double XMm, double YMm) ToMm(double x, double y)
    {
        // Called for every sample of a picture, so written out.
        double rayX = (x - (CardScene.WidthPx / 2.0)) / _focalPx;
        double rayY = (y - (CardScene.HeightPx / 2.0)) / _focalPx;
        double reach = _offset / ((_normal[0] * rayX) + (_normal[1] * rayY) + _normal[2]);
        double atX = (reach * rayX) - _origin[0];
        double atY = (reach * rayY) - _origin[1];
        double atZ = reach - _origin[2];
        return (
            (atX * _xAxis[0]) + (atY * _xAxis[1]) + (atZ * _xAxis[2]) + (ScaleCard.WidthMm / 2),
            (atX * _yAxis[0]) + (atY * _yAxis[1]) + (atZ * _yAxis[2]) + (ScaleCard.HeightMm / 2));
    }

    /// <summary>Angle between the line of sight to a place on the card and the normal of the card.</summary>
    public double SightTiltDegrees(double xMm, double yMm)
    {
        var (x, y) = ToPx(xMm, yMm);
        double[] ray = [(x - (CardScene.WidthPx / 2.0)) / _focalPx, (y - (CardScene.HeightPx / 2.0)) / _focalPx, 1];
        return Math.Acos(Math.Min(1, Math.Abs(Dot(ray, _normal)) / Math.Sqrt(Dot(ray, ray)))) * 180 / Math.PI;
    }

    /// <summary>Area of the card in the picture, pixels, and its bounds.</summary>
    public (double AreaPx, (double Left, double Top, double Right, double Bottom) Bounds) CardInFrame()
    {
        (double X, double Y)[] corners =
        [
            ToPx(0, 0), ToPx(ScaleCard.WidthMm, 0), ToPx(ScaleCard.WidthMm, ScaleCard.HeightMm), ToPx(0, ScaleCard.HeightMm),
        ];
        double area = 0;
        for (int i = 0; i < 4; i++)
        {
            var next = corners[(i + 1) % 4];
            area += (corners[i].X * next.Y) - (next.X * corners[i].Y);
        }

        return (
            Math.Abs(area) / 2,
            (corners.Min(c => c.X), corners.Min(c => c.Y), corners.Max(c => c.X), corners.Max(c => c.Y)));
    }

    private static double Dot(double[] a, double[] b) => (a[0] * b[0]) + (a[1] * b[1]) + (a[2] * b[2]);
}
