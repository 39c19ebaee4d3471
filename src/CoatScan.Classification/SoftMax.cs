namespace CoatScan.Classification;

/// <summary>Scores to probabilities.</summary>
internal static class SoftMax
{
    // Single precision underflows below this; a probability of 0 has no logarithm.
    private const double Smallest = 1e-12;

    /// <summary>Probabilities that sum to 1.</summary>
    /// <param name="logits">Scores, natural-log units.</param>
    /// <param name="temperature">Divides the scores, above 0.</param>
    public static double[] Of(ReadOnlySpan<double> logits, double temperature = 1)
    {
        var largest = double.NegativeInfinity;
        foreach (var logit in logits)
        {
            largest = Math.Max(largest, logit);
        }

        var shares = new double[logits.Length];
        var sum = 0.0;
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = Math.Exp((logits[i] - largest) / temperature);
            sum += shares[i];
        }

        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] /= sum;
        }

        return shares;
    }

    /// <summary>Natural logarithm, from -27.6.</summary>
    public static double SafeLog(double probability) => Math.Log(Math.Max(probability, Smallest));
}
