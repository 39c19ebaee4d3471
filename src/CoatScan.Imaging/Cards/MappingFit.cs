using CoatScan.Imaging.Color;

namespace CoatScan.Imaging.Cards;

/// <summary>Least squares for a homography of which single coordinates of the target are known.</summary>
/// <remarks>
/// Each known coordinate is one linear equation in the eight free elements (the ninth is 1); squares are taken of the algebraic
/// error, which equals the geometric one but for a factor that hardly varies over a code. Keep both sides near [-1, 1]: the normal
/// equations square the condition.
/// </remarks>
internal sealed class MappingFit
{
    private const int Unknowns = 8;

    private readonly double[,] _normal = new double[Unknowns, Unknowns + 1];

    /// <summary>Says that (x, y) goes to a point with this first coordinate.</summary>
    public void AddX(double x, double y, double target, double weight) =>
        Add([x, y, 1, 0, 0, 0, -target * x, -target * y], target, weight);

    /// <summary>Says that (x, y) goes to a point with this second coordinate.</summary>
    public void AddY(double x, double y, double target, double weight) =>
        Add([0, 0, 0, x, y, 1, -target * x, -target * y], target, weight);

    /// <summary>The best map; null if what was said does not fix one. Eats the equations.</summary>
    public Matrix3? Solve()
    {
        // Gauss with row pivots.
        for (int pivot = 0; pivot < Unknowns; pivot++)
        {
            int best = pivot;
            for (int row = pivot + 1; row < Unknowns; row++)
            {
                best = Math.Abs(_normal[row, pivot]) > Math.Abs(_normal[best, pivot]) ? row : best;
            }

            if (Math.Abs(_normal[best, pivot]) < 1e-12)
            {
                return null;
            }

            for (int column = pivot; column <= Unknowns; column++)
            {
                (_normal[pivot, column], _normal[best, column]) = (_normal[best, column], _normal[pivot, column]);
            }

            for (int row = 0; row < Unknowns; row++)
            {
                double factor = row == pivot ? 0 : _normal[row, pivot] / _normal[pivot, pivot];
                for (int column = pivot; factor != 0 && column <= Unknowns; column++)
                {
                    _normal[row, column] -= factor * _normal[pivot, column];
                }
            }
        }

        double At(int i) => _normal[i, Unknowns] / _normal[i, i];
        return new Matrix3(At(0), At(1), At(2), At(3), At(4), At(5), At(6), At(7), 1);
    }

    private void Add(ReadOnlySpan<double> factors, double value, double weight)
    {
        for (int row = 0; row < Unknowns; row++)
        {
            double scaled = weight * factors[row];
            for (int column = 0; column < Unknowns; column++)
            {
                _normal[row, column] += scaled * factors[column];
            }

            _normal[row, Unknowns] += scaled * value;
        }
    }
}
