using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class AnswerMeanTests
{
    private static readonly int Count = VisualClasses.All.Count;

    private static readonly int Sound = VisualClasses.IndexOf(VisualClasses.Sound);

    private static readonly int Rust = VisualClasses.IndexOf(VisualClasses.Rust);

    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);

    // By hand: the odds of two classes are the root of the product of both models' odds; here sqrt(9 * 1/4) = 1.5.
    [Fact]
    public void Of_gives_odds_that_are_the_geometric_mean_of_both()
    {
        var score = Enumerable.Repeat(0.1f / (Count - 2), Count).ToArray();
        (score[Rust], score[Chips]) = (0.81f, 0.09f);
        var answer = new float[Count];
        answer[Chips] = MathF.Log(4);

        var mean = AnswerMean.Of(score, answer);

        Assert.Equal(1.5, mean[Rust] / (double)mean[Chips], 1e-5);
        Assert.Equal(1, mean.Sum(share => (double)share), 1e-6);
    }

    // By hand: 7 in 31 of the network's views were sound and 5 in 29 of the photo model's panels, against one of each other class; the mean
    // takes the root of the ratio 5/7 because the network is one of two.
    [Fact]
    public void Of_brings_the_networks_share_of_sound_to_that_of_the_photo_model()
    {
        var even = Enumerable.Repeat(1f / Count, Count).ToArray();

        var mean = AnswerMean.Of(even, new float[Count]);

        Assert.Equal(Math.Sqrt(5.0 / 7), mean[Sound] / (double)mean[Rust], 1e-5);
    }
}
