namespace CoatScan.Training.Evaluation;

/// <summary>How honest probabilities are.</summary>
internal static class ProbabilityScores
{
    /// <summary>
    /// Expected calibration error: over equal-width bins (low, high] of the confidence, the gap between mean
    /// confidence and share of right answers, weighted by the bin's count. [0, 1], 0 is best. Guo et al., ICML 2017,
    /// arXiv:1706.04599; unreliable with few answers a bin, so report it with an interval.
    /// </summary>
    public static double ExpectedCalibrationError(
        IReadOnlyList<double> confidence, IReadOnlyList<bool> right, int bins = 10) =>
        Gaps(confidence, right, bins).Sum(bin => bin.Share * bin.Gap);

    /// <summary>The same with photos that count differently.</summary>
    public static double ExpectedCalibrationError(
        IReadOnlyList<double> confidence, IReadOnlyList<bool> right, IReadOnlyList<double> weights)
    {
        const int Bins = 10;
        var gaps = new double[Bins];
        for (var i = 0; i < confidence.Count; i++)
        {
            var bin = Math.Clamp((int)Math.Ceiling(confidence[i] * Bins) - 1, 0, Bins - 1);
            gaps[bin] += weights[i] * (confidence[i] - (right[i] ? 1 : 0));
        }

        return gaps.Sum(Math.Abs) / weights.Sum();
    }

    /// <summary>The largest gap of any bin that holds an answer.</summary>
    public static double MaximumCalibrationError(
        IReadOnlyList<double> confidence, IReadOnlyList<bool> right, int bins = 10) =>
        Gaps(confidence, right, bins).Max(bin => bin.Gap);

    /// <summary>Mean squared distance between the confidence and what happened (Brier 1950, two outcomes). [0, 1].</summary>
    public static double BinaryBrier(IReadOnlyList<double> confidence, IReadOnlyList<bool> right) =>
        Enumerable.Range(0, confidence.Count).Average(i => Math.Pow(confidence[i] - (right[i] ? 1 : 0), 2));

    /// <summary>Mean negative natural logarithm of the probability of what happened, two outcomes.</summary>
    public static double BinaryLogLoss(IReadOnlyList<double> confidence, IReadOnlyList<bool> right) =>
        Enumerable.Range(0, confidence.Count).Average(i => -Math.Log(right[i] ? confidence[i] : 1 - confidence[i]));

    /// <summary>Brier score over all classes: mean over answers of the summed squared distances. [0, 2].</summary>
    public static double Brier(IReadOnlyList<double[]> probabilities, IReadOnlyList<int> truth) =>
        Enumerable.Range(0, truth.Count).Average(i =>
            probabilities[i].Select((p, c) => Math.Pow(p - (c == truth[i] ? 1 : 0), 2)).Sum());

    /// <summary>The bins of the two errors above that hold an answer, lowest confidence first.</summary>
    public static IReadOnlyList<ReliabilityBin> Reliability(
        IReadOnlyList<double> confidence, IReadOnlyList<bool> right, int bins = 10)
    {
        var count = new int[bins];
        var sum = new double[bins];
        var hits = new int[bins];
        for (var i = 0; i < confidence.Count; i++)
        {
            var bin = Math.Clamp((int)Math.Ceiling(confidence[i] * bins) - 1, 0, bins - 1);
            count[bin]++;
            sum[bin] += confidence[i];
            hits[bin] += right[i] ? 1 : 0;
        }

        return
        [
            .. Enumerable.Range(0, bins)
                .Where(bin => count[bin] > 0)
                .Select(bin => new ReliabilityBin(
                    bin / (double)bins, (bin + 1) / (double)bins, count[bin], sum[bin] / count[bin], hits[bin] / (double)count[bin])),
        ];
    }

    private static IEnumerable<(double Share, double Gap)> Gaps(
        IReadOnlyList<double> confidence, IReadOnlyList<bool> right, int bins) =>
        Reliability(confidence, right, bins)
            .Select(bin => (bin.Count / (double)confidence.Count, Math.Abs(bin.Confidence - bin.Right)));
}
