using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>
/// The cutoff of the conformal sets: the weighted quantile of the true classes' scores, each photo weighed so that its class counts as often
/// as it is expected in use (conformal prediction under label shift: Podkopaev and Ramdas, UAI 2021, arXiv:2103.03323).
/// </summary>
internal static class ConformalFit
{
    /// <summary>Share of rendered panels whose set holds the true class.</summary>
    public const double Coverage = 0.9;

    /// <param name="probabilities">Calibrated probabilities of photos that trained nothing.</param>
    /// <param name="truth">Their true classes.</param>
    /// <param name="shares">How often each class is expected.</param>
    public static double Cutoff(IReadOnlyList<double[]> probabilities, IReadOnlyList<int> truth, ClassShares shares)
    {
        var weights = shares.Weights(truth);

        // The photo to come counts like one more, whose score may be the largest of all.
        var needed = Coverage * (weights.Sum() + weights.Max());
        var sum = 0.0;
        foreach (var (score, weight) in probabilities
            .Select((row, i) => (Score: ConformalSet.Score(row, truth[i]), Weight: weights[i]))
            .OrderBy(pair => pair.Score))
        {
            sum += weight;
            if (sum >= needed)
            {
                return score;
            }
        }

        return 1;
    }
}
