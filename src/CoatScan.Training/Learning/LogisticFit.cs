namespace CoatScan.Training.Learning;

/// <summary>Logistic regression of a few signs by Newton's method, with a slight pull of the weights toward 0.</summary>
internal static class LogisticFit
{
    private const double Ridge = 1e-2;

    private const int Rounds = 30;

    /// <param name="rows">Signs, the constant among them.</param>
    /// <param name="truth">Whether it is so.</param>
    public static double[] Fit(IReadOnlyList<double[]> rows, IReadOnlyList<bool> truth)
    {
        var size = rows[0].Length;
        var weights = new double[size];
        for (var round = 0; round < Rounds; round++)
        {
            var gradient = weights.Select(weight => Ridge * weight).ToArray();
            var curvature = new double[size, size];
            for (var i = 0; i < size; i++)
            {
                curvature[i, i] = Ridge;
            }

            for (var row = 0; row < rows.Count; row++)
            {
                var signs = rows[row];
                var sum = 0.0;
                for (var i = 0; i < size; i++)
                {
                    sum += weights[i] * signs[i];
                }

                var probability = 1 / (1 + Math.Exp(-sum));
                for (var i = 0; i < size; i++)
                {
                    gradient[i] += (probability - (truth[row] ? 1 : 0)) * signs[i];
                    for (var j = 0; j < size; j++)
                    {
                        curvature[i, j] += probability * (1 - probability) * signs[i] * signs[j];
                    }
                }
            }

            var step = Solve(curvature, gradient);
            for (var i = 0; i < size; i++)
            {
                weights[i] -= step[i];
            }
        }

        return weights;
    }

    // Gauss elimination; the matrix is positive definite, so no pivoting is needed.
    private static double[] Solve(double[,] matrix, double[] right)
    {
        var size = right.Length;
        var result = (double[])right.Clone();
        for (var column = 0; column < size; column++)
        {
            for (var row = column + 1; row < size; row++)
            {
                var factor = matrix[row, column] / matrix[column, column];
                for (var k = column; k < size; k++)
                {
                    matrix[row, k] -= factor * matrix[column, k];
                }

                result[row] -= factor * result[column];
            }
        }

        for (var row = size - 1; row >= 0; row--)
        {
            for (var k = row + 1; k < size; k++)
            {
                result[row] -= matrix[row, k] * result[k];
            }

            result[row] /= matrix[row, row];
        }

        return result;
    }
}
