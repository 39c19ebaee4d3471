using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.TrainingTests.Learning;

public sealed class ClassSharesTests
{
    [Fact]
    public void Even_takes_the_shares_of_training_out()
    {
        // Sound three times, every other class once: 18 photos. A photo that says nothing gets the shares of training back.
        var classes = Enumerable.Range(0, VisualClasses.All.Count).Append(0).Append(0);
        var shares = ClassShares.Of([.. classes.Select(Sample)]);

        Assert.Equal(3.0 / 18, shares.Values[0], 1e-12);
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
}
