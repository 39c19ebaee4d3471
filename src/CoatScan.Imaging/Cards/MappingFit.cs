using CoatScan.Imaging.Color;

namespace CoatScan.Imaging.Cards;

/// <summary>Least squares for a homography of which single coordinates of the target are known.</summary>
/// <remarks>
/// Each known coordinate is one linear equation in the eight free elements (the ninth is 1); squares are taken of the algebraic
/// error, which equals the geometric one but for a factor that hardly varies over a code. Keep both sides near [-1, 1]: the normal
/// equations square the condition.
/// The covariance takes what the equations leave over as independent noise, equal for all.
/// </remarks>
internal sealed class MappingFit
{
    private const int Unknowns = 8;

    // The equations, what they shall give, and beside them the unit matrix, which becomes the inverse.
    private const int Columns = (2 * Unknowns) + 1;

    private readonly double[,] _normal = new double[Unknowns, Columns];
    private double _squares;
    private int _count;

    /// <summary>Says that (x, y) goes to a point with this first coordinate.</summary>
    public void AddX(double x, double y, double target) =>
        Add([x, y, 1, 0, 0, 0, -target * x, -target * y], target);

    /// <summary>Says that (x, y) goes to a point with this second coordinate.</summary>
    public void AddY(double x, double y, double target) =>
        Add([0, 0, 0, x, y, 1, -target * x, -target * y], target);

    /// <summary>The best map and the covariance of its eight elements; null if what was said does not fix one. Eats the equations.</summary>
    public (Matrix3 Map, double[,] Covariance)? Solve()
    {
        if (_count <= Unknowns)
        {
            return null;
        }

        var wanted = new double[Unknowns];
        for (int row = 0; row < Unknowns; row++)
        {
            wanted[row] = _normal[row, Unknowns];
            _normal[row, Unknowns + 1 + row] = 1;
        }

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

            for (int column = pivot; column < Columns; column++)
            {
                (_normal[pivot, column], _normal[best, column]) = (_normal[best, column], _normal[pivot, column]);
            }

            for (int row = 0; row < Unknowns; row++)
            {
                double factor = row == pivot ? 0 : _normal[row, pivot] / _normal[pivot, pivot];
                for (int column = pivot; factor != 0 && column < Columns; column++)
                {
                    _normal[row, column] -= factor * _normal[pivot, column];
                }
            }
        }

        double At(int i) => _normal[i, Unknowns] / _normal[i, i];
        double left = _squares;
        for (int i = 0; i < Unknowns; i++)
        {
            left -= At(i) * wanted[i];
        }

        double variance = Math.Max(0, left) / (_count - Unknowns);
        var covariance = new double[Unknowns, Unknowns];
        for (int row = 0; row < Unknowns; row++)
        {
            for (int column = 0; column < Unknowns; column++)
            {
                covariance[row, column] = variance * _normal[row, Unknowns + 1 + column] / _normal[row, row];
            }
        }

        return (new Matrix3(At(0), At(1), At(2), At(3), At(4), At(5), At(6), At(7), 1), covariance);
    }

    private void Add(ReadOnlySpan<double> factors, double value)
    {
        _count++;
        _squares += value * value;
        for (int row = 0; row < Unknowns; row++)
        {
            for (int column = 0; column < Unknowns; column++)
            {
                _normal[row, column] += factors[row] * factors[column];
            }

            _normal[row, Unknowns] += factors[row] * value;
        }
    }
}
