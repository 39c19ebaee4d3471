using CoatScan.Classification;
using CoatScan.DemoPanels;

namespace CoatScan.ClassificationTests;

public sealed class ConformalSetTests(ClassifierFixture fixture)
{
    // By hand, from the definition in Romano, Sesia and Candes (2020), section 2.1, with u = 0: the score of a class is the sum of all
    // probabilities above its own.
    [Fact]
    public void Score_adds_up_what_is_more_probable()
    {
        double[] probabilities = [0.1, 0.6, 0.3];

        Assert.Equal(0, ConformalSet.Score(probabilities, 1), 1e-12);
        Assert.Equal(0.6, ConformalSet.Score(probabilities, 2), 1e-12);
        Assert.Equal(0.9, ConformalSet.Score(probabilities, 0), 1e-12);
    }

    [Theory]
    [InlineData(0.95, new[] { true, true, true })]
    [InlineData(0.7, new[] { false, true, true })]
    [InlineData(0.5, new[] { false, true, false })]
    [InlineData(0, new[] { false, true, false })]
    public void Of_holds_low_scores_and_always_the_most_probable(double cutoff, bool[] members) =>
        Assert.Equal(members, ConformalSet.Of([0.1, 0.6, 0.3], cutoff));

    // The promise is for panels with classes as often as expected in use; a binomial of 100 draws at the stated coverage is below the limit
    // here three times in a thousand.
    [Fact]
    public void Shipped_sets_hold_the_true_class_of_new_renders_as_often_as_stated()
    {
        var info = fixture.Classifier.Info;
        const int PerClass = 4;
        double covered = 0, size = 0;
        foreach (var (id, share) in info.PriorShares)
        {
            for (var i = 0; i < PerClass; i++)
            {
                var reading = fixture.Classify(ClassifierFixture.Render(id, 700_000UL + (ulong)i));
                covered += reading.Shares.Single(one => one.VisualClass == id).Possible ? share / PerClass : 0;
                size += reading.Shares.Count(one => one.Possible) * share / PerClass;
            }
        }

        // Photos count by their class, so fewer than 100 of them speak: the effective number is one over the sum of squared weights.
        var effective = 1 / info.PriorShares.Values.Sum(share => share * share / PerClass);
        var least = info.SetCoverage - (2.75 * Math.Sqrt(info.SetCoverage * (1 - info.SetCoverage) / effective));
        Assert.True(covered >= least, $"covered {covered:0.000}, stated {info.SetCoverage:0.00}, least {least:0.000}, mean size {size:0.0}");
        Assert.True(size < VisualClasses.All.Count / 2.0, $"Sets of {size:0.0} classes exclude next to nothing.");
    }

    [Fact]
    public void Shipped_finding_says_of_every_class_how_it_was_checked()
    {
        var reading = fixture.Classify(ClassifierFixture.Render(VisualClassIds.Chips, 700_001));

        Assert.All(reading.Shares, share => Assert.NotNull(share.Check));
        Assert.All(reading.Shares, share => Assert.True(share.Check!.Photos > 0 && share.Check.Recall is >= 0 and <= 1));
    }
}
