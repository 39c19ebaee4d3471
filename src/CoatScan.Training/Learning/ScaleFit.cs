using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>Fits one factor on log-probabilities by the likelihood of the truth.</summary>
internal static class ScaleFit
{
    private const double GoldenSection = 0.6180339887498949;

    /// <summary>Temperature (Guo et al., arXiv:1706.04599) that makes the truth most likely, [0.2, 10].</summary>
    public static double Temperature(IReadOnlyList<float[]> scores, IReadOnlyList<int> truth) =>
        Minimize(temperature => NegativeLogLikelihood(scores, truth, 1 / temperature), 0.2, 10);

    /// <summary>
    /// Weight, [0.05, 1], with which the log ratios of the photo's probabilities to the training shares should enter a
    /// merge, by the likelihood of the truth. Probabilities are given at equal shares, so the ratios differ from their
    /// logarithms by a constant only.
    /// </summary>
    public static double Lambda(IReadOnlyList<double[]> probabilities, IReadOnlyList<int> truth)
    {
        var single = probabilities.Select(row => row.Select(p => (float)p).ToArray()).ToArray();
        return Minimize(lambda => NegativeLogLikelihood(single, truth, lambda), 0.05, 1);
    }

    private static double NegativeLogLikelihood(IReadOnlyList<float[]> scores, IReadOnlyList<int> truth, double factor)
    {
        var sum = 0.0;
        for (var i = 0; i < truth.Count; i++)
        {
            var logits = scores[i].Select(score => factor * SoftMax.SafeLog(score)).ToArray();
            sum -= SoftMax.SafeLog(SoftMax.Of(logits)[truth[i]]);
        }

        return sum / truth.Count;
    }

    // The likelihood has one minimum along a scale, so a golden-section search on the logarithm finds it.
    private static double Minimize(Func<double, double> cost, double low, double high)
    {
        var (a, b) = (Math.Log(low), Math.Log(high));
        while (b - a > 1e-4)
        {
            var left = b - (GoldenSection * (b - a));
            var right = a + (GoldenSection * (b - a));
            if (cost(Math.Exp(left)) < cost(Math.Exp(right)))
            {
                b = right;
            }
            else
            {
                a = left;
            }
        }

        return Math.Exp((a + b) / 2);
    }
}
