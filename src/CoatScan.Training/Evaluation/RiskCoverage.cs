namespace CoatScan.Training.Evaluation;

/// <summary>Risk over coverage (El-Yaniv and Wiener, JMLR 11, 2010): how errors fall when the unsure photos are left to people.</summary>
internal static class RiskCoverage
{
    private const int Steps = 20;

    /// <summary>One point for each twentieth of the photos; photos of equal confidence come in together.</summary>
    public static IReadOnlyList<RiskPoint> Of(IReadOnlyList<double> confidence, IReadOnlyList<bool> right)
    {
        var points = new List<RiskPoint>();
        for (var step = 1; step <= Steps; step++)
        {
            var point = At(confidence, right, step / (double)Steps);
            if (points.Count == 0 || point.Coverage > points[^1].Coverage)
            {
                points.Add(point);
            }
        }

        return points;
    }

    /// <summary>The surest answers that make up at least a share of all.</summary>
    public static RiskPoint At(IReadOnlyList<double> confidence, IReadOnlyList<bool> right, double coverage)
    {
        var order = Enumerable.Range(0, confidence.Count).OrderByDescending(i => confidence[i]).ToArray();
        var least = confidence[order[Math.Max(1, (int)Math.Ceiling(coverage * order.Length)) - 1]];
        var answered = order.Where(i => confidence[i] >= least).ToArray();
        return new RiskPoint(
            answered.Length / (double)order.Length, least, answered.Count(i => !right[i]) / (double)answered.Length);
    }
}
