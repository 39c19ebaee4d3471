using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>How often each class occurred in training, and what probabilities become when all classes are as frequent.</summary>
internal sealed class ClassShares
{
    private readonly double[] _shares;

    private ClassShares(double[] shares) => _shares = shares;

    /// <summary>Shares of the samples' classes, in the order of the visual classes.</summary>
    public IReadOnlyList<double> Values => _shares;

    public static ClassShares Of(IReadOnlyList<Sample> samples) => new(
        [.. Enumerable.Range(0, VisualClasses.All.Count)
            .Select(index => samples.Count(sample => sample.ClassIndex == index) / (double)samples.Count)]);

    /// <summary>
    /// The same evidence with equal prior shares: each probability over its share, scaled to sum 1 (Bayes' rule). The
    /// diagnosis does the same when it merges a photo with other evidence.
    /// </summary>
    public double[] Even(IReadOnlyList<double> probabilities)
    {
        var even = new double[_shares.Length];
        for (var i = 0; i < even.Length; i++)
        {
            even[i] = probabilities[i] / _shares[i];
        }

        var sum = even.Sum();
        return [.. even.Select(value => value / sum)];
    }
}
