using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class AnswerMeanTests
{
    private static readonly int Count = VisualClasses.All.Count;

    private static readonly int Sound = VisualClasses.IndexOf(VisualClasses.Sound);

    private static readonly int Rust = VisualClasses.IndexOf(VisualClasses.Rust);

    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);

    // By hand: the odds of two classes are the weighed geometric mean of both models' odds, here 9 and 1/4: sqrt(9 * 1/4) = 1.5 where both
    // count alike, 9^0.25 * (1/4)^0.75 = 0.6124 where the photo model counts a quarter.
    [Theory]
    [InlineData(0.5, 1.5)]
    [InlineData(0.25, 0.6124)]
    [InlineData(0, 0.25)]
    public void Of_gives_odds_that_are_the_geometric_mean_of_both(double share, double odds)
    {
        var score = Enumerable.Repeat(0.1f / (Count - 2), Count).ToArray();
        (score[Rust], score[Chips]) = (0.81f, 0.09f);
        var answer = new float[Count];
        answer[Chips] = MathF.Log(4);

        var mean = AnswerMean.Of(score, answer, share);

        Assert.Equal(odds, mean[Rust] / (double)mean[Chips], 1e-4);
        Assert.Equal(1, mean.Sum(share => (double)share), 1e-6);
    }

    // By hand: 7 in 31 of the network's views were sound and 5 in 29 of the photo model's panels, against one of each other class; the mean
    // takes the ratio 5/7 to the power of what the network counts.
    [Fact]
    public void Of_brings_the_networks_share_of_sound_to_that_of_the_photo_model()
    {
        var even = Enumerable.Repeat(1f / Count, Count).ToArray();

        var mean = AnswerMean.Of(even, new float[Count], AnswerMean.UsualShare);

        Assert.Equal(Math.Pow(5.0 / 7, 1 - AnswerMean.UsualShare), mean[Sound] / (double)mean[Rust], 1e-5);
    }
}
