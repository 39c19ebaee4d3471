using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>How often each class occurs, and what probabilities become when all classes are as frequent.</summary>
internal sealed class ClassShares
{
    // What adjusters, lanes and owners send: sound panels most, then what the road, the sun and years do; faults of fresh paint and single
    // marks less, and now and then a wrong picture. Common practice, no source.
    private const double SoundWeight = 14;

    private const double WearWeight = 3;

    private const double WrongPictureWeight = 2;

    private static readonly string[] Wear =
    [
        VisualClasses.Chips, VisualClasses.FilmLoss, VisualClasses.Rust, VisualClasses.CrackNetwork, VisualClasses.RandomCracks,
        VisualClasses.ParallelScratches, VisualClasses.Swirl, VisualClasses.SingleScratch, VisualClasses.Dulling,
    ];

    private readonly double[] _shares;

    private ClassShares(double[] shares) => _shares = shares;

    /// <summary>What photos that people send are taken to show.</summary>
    public static ClassShares Expected { get; } = new(Normalize(
        [.. VisualClasses.All.Select(id => id == VisualClasses.Sound ? SoundWeight : Wear.Contains(id) ? WearWeight : id == VisualClasses.NotAPanel ? WrongPictureWeight : 1)]));

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

        return Normalize(even);
    }

    /// <summary>
    /// Mean over photos with every class weighed by its share, whatever number of them shows it; classes that no photo shows are left out.
    /// </summary>
    /// <param name="truth">True class of each photo.</param>
    /// <param name="value">Value of a photo.</param>
    public double WeightedMean(IReadOnlyList<int> truth, Func<int, double> value)
    {
        var weights = Weights(truth);
        var sum = 0.0;
        for (var i = 0; i < truth.Count; i++)
        {
            sum += weights[i] * value(i);
        }

        return sum / weights.Sum();
    }

    /// <summary>What each photo counts so that its class as a whole counts its share.</summary>
    public double[] Weights(IReadOnlyList<int> truth)
    {
        var counts = new int[_shares.Length];
        foreach (var index in truth)
        {
            counts[index]++;
        }

        return [.. truth.Select(index => _shares[index] / counts[index])];
    }

    /// <summary>What to add to log-probabilities that start from these shares, so that they start from the others.</summary>
    public double[] LogShiftTo(ClassShares other) =>
        [.. _shares.Zip(other._shares, (mine, theirs) => Math.Log(theirs / mine))];

    private static double[] Normalize(double[] weights)
    {
        var sum = weights.Sum();
        return [.. weights.Select(value => value / sum)];
    }
}
