using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>Scale and offset of the log-probabilities, one each a class (Guo et al., arXiv:1706.04599), held near a given scale.</summary>
/// <param name="Scale">Factor of each class's log-probability.</param>
/// <param name="Offset">What is added to it after.</param>
internal sealed record VectorScaling(double[] Scale, double[] Offset)
{
    // A class has some twenty calibration photos: without this pull its two numbers would follow their noise.
    private const double Pull = 8;

    private const int Rounds = 400;

    private const double GradientEnough = 1e-4;

    /// <summary>One factor for all classes: temperature scaling.</summary>
    public static VectorScaling Same(double scale) =>
        new([.. Enumerable.Repeat(scale, VisualClasses.All.Count)], new double[VisualClasses.All.Count]);

    /// <summary>Minimizes log loss plus the pull toward <paramref name="around"/> and no offset, by descent with a tried step.</summary>
    public static VectorScaling Fit(IReadOnlyList<float[]> scores, IReadOnlyList<int> truth, double around)
    {
        double[][] logs = [.. scores.Select(row => row.Select(score => SoftMax.SafeLog(score)).ToArray())];
        var now = Same(around);
        var cost = Cost(now, logs, truth, around);
        var step = 1e-3;
        for (var round = 0; round < Rounds; round++)
        {
            var gradient = Gradient(now, logs, truth, around);
            var square = gradient.Scale.Concat(gradient.Offset).Sum(value => value * value);
            if (square < GradientEnough)
            {
                break;
            }

            VectorScaling next;
            double nextCost;
            step *= 2;
            do
            {
                step /= 2;
                next = now.Moved(gradient, -step);
                nextCost = Cost(next, logs, truth, around);
            }
            while (nextCost > cost - (0.3 * step * square) && step > 1e-12);

            (now, cost) = nextCost < cost ? (next, nextCost) : (now, cost);
            step *= 2;
        }

        return now;
    }

    /// <summary>The same at a temperature that is higher by a factor.</summary>
    public VectorScaling Softened(double factor) => new(
        [.. Scale.Select(value => value / factor)], [.. Offset.Select(value => value / factor)]);

    /// <summary>Mean negative log-likelihood of the truth.</summary>
    public double LogLoss(IReadOnlyList<float[]> scores, IReadOnlyList<int> truth)
    {
        var sum = 0.0;
        for (var i = 0; i < truth.Count; i++)
        {
            sum -= SoftMax.SafeLog(Probabilities([.. scores[i].Select(score => SoftMax.SafeLog(score))])[truth[i]]);
        }

        return sum / truth.Count;
    }

    private static double Cost(VectorScaling at, double[][] logs, IReadOnlyList<int> truth, double around)
    {
        var sum = 0.0;
        for (var i = 0; i < logs.Length; i++)
        {
            sum -= SoftMax.SafeLog(at.Probabilities(logs[i])[truth[i]]);
        }

        return sum + (Pull / 2 * (at.Scale.Sum(value => (value - around) * (value - around)) + at.Offset.Sum(value => value * value)));
    }

    private static VectorScaling Gradient(VectorScaling at, double[][] logs, IReadOnlyList<int> truth, double around)
    {
        double[] scale = [.. at.Scale.Select(value => Pull * (value - around))];
        double[] offset = [.. at.Offset.Select(value => Pull * value)];
        for (var i = 0; i < logs.Length; i++)
        {
            var shares = at.Probabilities(logs[i]);
            for (var c = 0; c < shares.Length; c++)
            {
                var error = shares[c] - (c == truth[i] ? 1 : 0);
                scale[c] += error * logs[i][c];
                offset[c] += error;
            }
        }

        return new VectorScaling(scale, offset);
    }

    private VectorScaling Moved(VectorScaling direction, double step) => new(
        [.. Scale.Zip(direction.Scale, (value, by) => value + (step * by))],
        [.. Offset.Zip(direction.Offset, (value, by) => value + (step * by))]);

    private double[] Probabilities(double[] logs)
    {
        var logits = new double[logs.Length];
        for (var c = 0; c < logits.Length; c++)
        {
            logits[c] = (logs[c] * Scale[c]) + Offset[c];
        }

        return SoftMax.Of(logits);
    }
}
