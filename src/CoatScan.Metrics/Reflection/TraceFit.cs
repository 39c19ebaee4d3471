namespace CoatScan.Metrics.Reflection;

/// <summary>Distance of a trace from a smooth curve: what is left when the shape of panel and object is taken off.</summary>
/// <remarks>
/// <para>A polynomial of degree 3 (degree 1 is the straight line) in Legendre form, fitted by least squares with Tukey's weights, five
/// rounds, so that a stone chip on the edge does not bend the curve. A cubic bends like a wave of about two thirds of the length or more, hence
/// bands are given only up to an eighth of it.</para>
/// <para>Source: Beaton and Tukey, Technometrics 16(2), 1974 (biweight, c = 4.685; from memory).</para>
/// </remarks>
internal static class TraceFit
{
    private const int Terms = 4;
    private const int Rounds = 5;
    private const double TukeyLimit = 4.685;
    private const double SigmaPerMedian = 1.4826;

    internal static double[] Residuals(double[] positionsPx)
    {
        var weights = new double[positionsPx.Length];
        Array.Fill(weights, 1.0);
        var residuals = new double[positionsPx.Length];
        for (var round = 0; round < Rounds; round++)
        {
            var coefficients = Solve(positionsPx, weights);
            for (var i = 0; i < residuals.Length; i++)
            {
                residuals[i] = positionsPx[i] - Value(coefficients, Place(i, residuals.Length));
            }

            var limit = TukeyLimit * SigmaPerMedian * MedianMagnitude(residuals);
            for (var i = 0; i < weights.Length; i++)
            {
                var ratio = limit > 0.0 ? residuals[i] / limit : 0.0;
                weights[i] = Math.Abs(ratio) < 1.0 ? Math.Pow(1.0 - (ratio * ratio), 2.0) : 0.0;
            }
        }

        return residuals;
    }

    internal static double MedianMagnitude(double[] values)
    {
        var sorted = Array.ConvertAll(values, Math.Abs);
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }

    private static double Place(int i, int count) => (2.0 * i / Math.Max(1, count - 1)) - 1.0;

    private static double Legendre(int degree, double t) => degree switch
    {
        0 => 1.0,
        1 => t,
        2 => 0.5 * ((3.0 * t * t) - 1.0),
        _ => 0.5 * t * ((5.0 * t * t) - 3.0),
    };

    private static double Value(double[] coefficients, double t)
    {
        var value = 0.0;
        for (var k = 0; k < Terms; k++)
        {
            value += coefficients[k] * Legendre(k, t);
        }

        return value;
    }

    // Normal equations by elimination; Legendre terms keep them well conditioned.
    private static double[] Solve(double[] positions, double[] weights)
    {
        var system = new double[Terms, Terms + 1];
        var terms = new double[Terms];
        for (var i = 0; i < positions.Length; i++)
        {
            for (var k = 0; k < Terms; k++)
            {
                terms[k] = Legendre(k, Place(i, positions.Length));
            }

            for (var row = 0; row < Terms; row++)
            {
                for (var column = 0; column < Terms; column++)
                {
                    system[row, column] += weights[i] * terms[row] * terms[column];
                }

                system[row, Terms] += weights[i] * terms[row] * positions[i];
            }
        }

        for (var pivot = 0; pivot < Terms; pivot++)
        {
            for (var row = 0; row < Terms; row++)
            {
                var factor = row == pivot ? 0.0 : system[row, pivot] / system[pivot, pivot];
                for (var column = pivot; column <= Terms && factor != 0.0; column++)
                {
                    system[row, column] -= factor * system[pivot, column];
                }
            }
        }

        return [.. Enumerable.Range(0, Terms).Select(k => system[k, Terms] / system[k, k])];
    }
}
