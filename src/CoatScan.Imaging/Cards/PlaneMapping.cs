using CoatScan.Imaging.Color;

namespace CoatScan.Imaging.Cards;

/// <summary>Homographies: maps of one plane to another as a camera sees it.</summary>
internal static class PlaneMapping
{
    /// <summary>Where a point goes.</summary>
    public static (double X, double Y) Map(in Matrix3 map, double x, double y)
    {
        var (u, v, w) = map.Apply(x, y, 1);
        return (u / w, v / w);
    }

    /// <summary>The map that takes the square from 0 to 1 to four points; not finite if three of them lie on a line.</summary>
    /// <remarks>Closed form, as in P. Heckbert, "Fundamentals of Texture Mapping and Image Warping", 1989, 2.2.3.</remarks>
    public static Matrix3 OfUnitSquare(
        (double X, double Y) at00, (double X, double Y) at10, (double X, double Y) at01, (double X, double Y) at11)
    {
        double ax = at10.X - at11.X;
        double ay = at10.Y - at11.Y;
        double bx = at01.X - at11.X;
        double by = at01.Y - at11.Y;
        double cx = at00.X - at10.X + at11.X - at01.X;
        double cy = at00.Y - at10.Y + at11.Y - at01.Y;
        double area = (ax * by) - (bx * ay);
        double g = ((cx * by) - (bx * cy)) / area;
        double h = ((ax * cy) - (cx * ay)) / area;
        return new Matrix3(
            at10.X - at00.X + (g * at10.X), at01.X - at00.X + (h * at01.X), at00.X,
            at10.Y - at00.Y + (g * at10.Y), at01.Y - at00.Y + (h * at01.Y), at00.Y,
            g, h, 1);
    }

    /// <summary>How many times longer the longest and the shortest direction become at a point.</summary>
    public static (double Longest, double Shortest) Stretch(in Matrix3 map, double x, double y)
    {
        var (u, v, w) = map.Apply(x, y, 1);
        double a = (map.M11 - (map.M31 * u / w)) / w;
        double b = (map.M12 - (map.M32 * u / w)) / w;
        double c = (map.M21 - (map.M31 * v / w)) / w;
        double d = (map.M22 - (map.M32 * v / w)) / w;

        // Singular values of a 2 x 2 matrix in closed form.
        double plus = Math.Sqrt(((a + d) * (a + d)) + ((c - b) * (c - b)));
        double minus = Math.Sqrt(((a - d) * (a - d)) + ((c + b) * (c + b)));
        return ((plus + minus) / 2, Math.Abs(plus - minus) / 2);
    }
}
