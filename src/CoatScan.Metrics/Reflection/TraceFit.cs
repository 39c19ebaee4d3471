namespace CoatScan.Metrics.Reflection;

/// <summary>Distance of a trace from a smooth curve: what is left when the shape of panel and object is taken off.</summary>
/// <remarks>
/// <para>A polynomial of degree 3 (degree 1 is the straight line) in Legendre form, fitted by least squares with Tukey's
/// weights, five rounds, so that a stone chip on the edge does not bend the curve. A cubic bends like a wave of about two
/// thirds of the length or more, hence bands are given only up to an eighth of it.</para>
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
        var terms = LegendreTerms(positionsPx.Length);
        var weights = new double[positionsPx.Length];
        Array.Fill(weights, 1.0);
        var residuals = new double[positionsPx.Length];
        for (var round = 0; round < Rounds; round++)
        {
            var c = Solve(positionsPx, weights, terms);
            for (var i = 0; i < residuals.Length; i++)
            {
                var t = terms.AsSpan(i * Terms, Terms);
                residuals[i] = positionsPx[i] - ((c[0] * t[0]) + (c[1] * t[1]) + (c[2] * t[2]) + (c[3] * t[3]));
            }

            Weigh(residuals, weights);
        }

        return residuals;
    }

    // A third of the places is enough for the scale.
    private static void Weigh(double[] residuals, double[] weights)
    {
        var sample = new double[(residuals.Length + 2) / 3];
        for (var i = 0; i < sample.Length; i++)
        {
            sample[i] = residuals[3 * i];
        }

        var limit = TukeyLimit * SigmaPerMedian * MedianMagnitude(sample);
        for (var i = 0; i < weights.Length; i++)
        {
            var ratio = limit > 0.0 ? residuals[i] / limit : 0.0;
            var rest = Math.Max(0.0, 1.0 - (ratio * ratio));
            weights[i] = rest * rest;
        }
    }

    internal static double MedianMagnitude(double[] values)
    {
        var sorted = Array.ConvertAll(values, Math.Abs);
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }

    private static double[] LegendreTerms(int count)
    {
        var terms = new double[count * Terms];
        for (var i = 0; i < count; i++)
        {
            var t = (2.0 * i / Math.Max(1, count - 1)) - 1.0;
            terms[i * Terms] = 1.0;
            terms[(i * Terms) + 1] = t;
            terms[(i * Terms) + 2] = 0.5 * ((3.0 * t * t) - 1.0);
            terms[(i * Terms) + 3] = 0.5 * t * ((5.0 * t * t) - 3.0);
        }

        return terms;
    }

    // Normal equations by elimination; Legendre terms keep them well conditioned.
    private static double[] Solve(double[] positions, double[] weights, double[] legendre)
    {
        var system = new double[Terms, Terms + 1];
        for (var i = 0; i < positions.Length; i++)
        {
            var terms = legendre.AsSpan(i * Terms, Terms);
            for (var row = 0; row < Terms; row++)
            {
                var weighted = weights[i] * terms[row];
                for (var column = 0; column < Terms; column++)
                {
                    system[row, column] += weighted * terms[column];
                }

                system[row, Terms] += weighted * positions[i];
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
