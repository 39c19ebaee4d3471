namespace CoatScan.Imaging.Color;

/// <summary>A 3 x 3 matrix that acts on columns.</summary>
internal readonly record struct Matrix3(
    double M11, double M12, double M13,
    double M21, double M22, double M23,
    double M31, double M32, double M33)
{
    public static Matrix3 Identity { get; } = Diagonal(1, 1, 1);

    public static Matrix3 Diagonal(double a, double b, double c) => new(a, 0, 0, 0, b, 0, 0, 0, c);

    public static Matrix3 operator *(Matrix3 a, Matrix3 b)
    {
        var (x1, y1, z1) = a.Apply(b.M11, b.M21, b.M31);
        var (x2, y2, z2) = a.Apply(b.M12, b.M22, b.M32);
        var (x3, y3, z3) = a.Apply(b.M13, b.M23, b.M33);
        return new Matrix3(x1, x2, x3, y1, y2, y3, z1, z2, z3);
    }

    public (double X, double Y, double Z) Apply(double x, double y, double z) => (
        (M11 * x) + (M12 * y) + (M13 * z),
        (M21 * x) + (M22 * y) + (M23 * z),
        (M31 * x) + (M32 * y) + (M33 * z));

    /// <summary>Largest difference of an element; NaN if an element is.</summary>
    public double DistanceTo(Matrix3 other)
    {
        ReadOnlySpan<double> differences =
        [
            M11 - other.M11, M12 - other.M12, M13 - other.M13,
            M21 - other.M21, M22 - other.M22, M23 - other.M23,
            M31 - other.M31, M32 - other.M32, M33 - other.M33,
        ];
        double largest = 0;
        foreach (double difference in differences)
        {
            largest = Math.Max(largest, Math.Abs(difference));
        }

        return largest;
    }

    public double Determinant() =>
        (M11 * ((M22 * M33) - (M23 * M32))) - (M12 * ((M21 * M33) - (M23 * M31))) + (M13 * ((M21 * M32) - (M22 * M31)));

    /// <summary>The inverse; not finite if the matrix is singular.</summary>
    public Matrix3 Invert()
    {
        double f = 1 / Determinant();
        return new Matrix3(
            ((M22 * M33) - (M23 * M32)) * f, ((M13 * M32) - (M12 * M33)) * f, ((M12 * M23) - (M13 * M22)) * f,
            ((M23 * M31) - (M21 * M33)) * f, ((M11 * M33) - (M13 * M31)) * f, ((M13 * M21) - (M11 * M23)) * f,
            ((M21 * M32) - (M22 * M31)) * f, ((M12 * M31) - (M11 * M32)) * f, ((M11 * M22) - (M12 * M21)) * f);
    }
}
