using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.TrainingTests.Learning;

public sealed class ConformalFitTests
{
    // Split conformal prediction is valid for any model (Vovk et al. 2005, proposition 2.3): here one whose probabilities are noise, on classes
    // as often as expected. 4,000 new draws lie within 0.03 of the stated coverage unless the cutoff is wrong.
    [Fact]
    public void Cutoff_covers_new_draws_of_a_poor_model_as_often_as_stated()
    {
        var random = new Random(3);
        var (fit, fitTruth) = Draw(random, 4000);
        var (next, nextTruth) = Draw(random, 4000);

        var cutoff = ConformalFit.Cutoff(fit, fitTruth, ClassShares.Expected);

        var covered = Enumerable.Range(0, next.Count).Average(i => ConformalSet.Of(next[i], cutoff)[nextTruth[i]] ? 1.0 : 0);
        Assert.InRange(covered, ConformalFit.Coverage - 0.02, ConformalFit.Coverage + 0.03);
    }

    [Fact]
    public void Cutoff_of_too_few_photos_excludes_nothing()
    {
        var (few, truth) = Draw(new Random(4), 5);

        Assert.Equal(1, ConformalFit.Cutoff(few, truth, ClassShares.Expected));
    }

    private static (List<double[]> Probabilities, List<int> Truth) Draw(Random random, int count)
    {
        var probabilities = new List<double[]>();
        var truth = new List<int>();
        for (var i = 0; i < count; i++)
        {
            var at = random.NextDouble();
            var label = 0;
            while (at > ClassShares.Expected.Values[label] && label < VisualClasses.All.Count - 1)
            {
                at -= ClassShares.Expected.Values[label++];
            }

            var logits = Enumerable.Range(0, VisualClasses.All.Count).Select(c => (2 * random.NextDouble()) + (c == label ? 1.5 * random.NextDouble() : 0));
            probabilities.Add(SoftMax.Of([.. logits]));
            truth.Add(label);
        }

        return (probabilities, truth);
    }
}
