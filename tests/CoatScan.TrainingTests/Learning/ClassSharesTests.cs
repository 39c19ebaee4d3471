using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.TrainingTests.Learning;

public sealed class ClassSharesTests
{
    [Fact]
    public void Even_takes_the_shares_of_training_out()
    {
        // Sound three times, every other class once: 27 photos. A photo that says nothing gets the shares of training back.
        var classes = Enumerable.Range(0, VisualClasses.All.Count).Append(0).Append(0);
        var shares = ClassShares.Of([.. classes.Select(Sample)]);

        Assert.Equal(3.0 / 27, shares.Values[0], 1e-12);
        Assert.All(shares.Even(shares.Values), value => Assert.Equal(1.0 / VisualClasses.All.Count, value, 1e-12));
    }

    private static Sample Sample(int classIndex) => new()
    {
        ClassIndex = classIndex,
        Group = "",
        CellLabels = [],
        Features = new PhotoFeatures { Mean = [], Peak = [], Answer = [], Cells = [] },
        Measured = [],
    };

    // Bayes' rule by hand: adding the shift to log-probabilities and scaling to sum 1 replaces one prior by the other.
    [Fact]
    public void LogShiftTo_replaces_one_prior_by_the_other()
    {
        var even = ClassShares.Of([.. Enumerable.Range(0, VisualClasses.All.Count).Select(Sample)]);

        var shift = even.LogShiftTo(ClassShares.Expected);

        var shifted = shift.Select((value, i) => Math.Exp(value) * even.Values[i]).ToArray();
        Assert.Equal(1, shifted.Sum(), 1e-12);
        Assert.All(shifted.Zip(ClassShares.Expected.Values), pair => Assert.Equal(pair.Second, pair.First, 1e-12));
    }

    [Fact]
    public void Expected_is_most_of_all_sound_and_leaves_something_to_every_class()
    {
        Assert.Equal(1, ClassShares.Expected.Values.Sum(), 1e-12);
        Assert.All(ClassShares.Expected.Values, share => Assert.InRange(share, 0.01, 0.3));
        Assert.Equal(ClassShares.Expected.Values.Max(), ClassShares.Expected.Values[VisualClasses.IndexOf(VisualClasses.Sound)]);
    }
}
