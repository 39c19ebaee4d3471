using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.TrainingTests.Learning;

public sealed class VectorScalingTests
{
    private static readonly int Count = VisualClasses.All.Count;

    // The model says 0.8 and 0.2 where the truth is 0.5 and 0.5 when it says so of class 0, but is honest when it says so of class 1: one
    // temperature cannot mend both, a scale and an offset a class can.
    private static readonly (float[] Score, int Truth)[] Photos =
    [
        .. Enumerable.Range(0, 1000).Select(i => (Said(0), i < 500 ? 0 : 1)),
        .. Enumerable.Range(0, 1000).Select(i => (Said(1), i < 800 ? 1 : 0)),
    ];

    [Fact]
    public void Fit_is_better_than_one_temperature_where_classes_differ()
    {
        var (scores, truth) = (Photos.Select(photo => photo.Score).ToArray(), Photos.Select(photo => photo.Truth).ToArray());
        var temperature = ScaleFit.Temperature(scores, truth);

        var vector = VectorScaling.Fit(scores, truth, 1 / temperature);

        // Log loss of the true rates, by hand: half of log 2 and half of the entropy of (0.8, 0.2).
        var best = (0.5 * Math.Log(2)) - (0.5 * ((0.8 * Math.Log(0.8)) + (0.2 * Math.Log(0.2))));
        Assert.True(vector.LogLoss(scores, truth) < VectorScaling.Same(1 / temperature).LogLoss(scores, truth) - 0.005);
        Assert.Equal(best, vector.LogLoss(scores, truth), 0.01);
    }

    // By hand, in log loss at the true rates: one temperature 0.588 (rate 0.725 for both classes), a scale and an offset a class 0.446.
    [Fact]
    public void Choice_is_vector_scaling_where_it_carries_over_to_the_other_kind_and_wins_clearly()
    {
        (float[] Score, int Truth)[] photos =
        [
            .. Enumerable.Range(0, 1000).Select(i => (Said(0), i < 500 ? 0 : 1)),
            .. Enumerable.Range(0, 1000).Select(i => (Said(1), i < 950 ? 1 : 0)),
        ];

        var choice = Choice(photos);

        Assert.True(choice.IsVector);
        Assert.Equal(0.588, choice.TemperatureLogLoss, 0.01);
        Assert.Equal(0.446, choice.VectorLogLoss, 0.01);
    }

    // By hand: 0.647 (rate 0.65 for both classes) against 0.642.
    [Fact]
    public void Choice_is_one_temperature_where_vector_scaling_wins_by_little()
    {
        (float[] Score, int Truth)[] photos =
        [
            .. Enumerable.Range(0, 1000).Select(i => (Said(0), i < 600 ? 0 : 1)),
            .. Enumerable.Range(0, 1000).Select(i => (Said(1), i < 700 ? 1 : 0)),
        ];

        var choice = Choice(photos);

        Assert.True(choice.VectorLogLoss < choice.TemperatureLogLoss);
        Assert.False(choice.IsVector);
    }

    [Fact]
    public void Choice_is_one_temperature_where_the_kinds_have_opposite_errors()
    {
        // What is so of class 0 among photos of the first kind is so of class 1 among those of the second.
        var kinds = Photos.Select(photo => (photo.Score, photo.Truth, Kind: 0))
            .Concat(Photos.Select(photo => (Score: Swapped(photo.Score), Truth: 1 - photo.Truth, Kind: 1)))
            .ToArray();

        var choice = ScalingChoice.Of(
            [.. kinds.Select(photo => photo.Score)], [.. kinds.Select(photo => photo.Truth)], [.. kinds.Select(photo => photo.Kind)]);

        Assert.False(choice.IsVector);
        Assert.Equal(VectorScaling.Same(1 / choice.Temperature).Scale, choice.Chosen.Scale);
    }

    [Fact]
    public void Choice_is_less_sure_than_what_fits_best()
    {
        var fitted = ScaleFit.Temperature([.. Photos.Select(photo => photo.Score)], [.. Photos.Select(photo => photo.Truth)]);

        Assert.Equal(ScalingChoice.Care * fitted, Choice(Photos).Temperature, 1e-6);
    }

    [Fact]
    public void Softened_scaling_gives_log_odds_that_are_smaller_by_the_factor()
    {
        var scaling = new VectorScaling([3, 6], [1, -2]).Softened(2);

        Assert.Equal([1.5, 3], scaling.Scale);
        Assert.Equal([0.5, -1], scaling.Offset);
    }

    // Every other photo is of the other kind.
    private static ScalingChoice Choice((float[] Score, int Truth)[] photos) => ScalingChoice.Of(
        [.. photos.Select(photo => photo.Score)], [.. photos.Select(photo => photo.Truth)], [.. photos.Select((_, i) => i % 2)]);

    private static float[] Said(int most)
    {
        var score = new float[Count];
        Array.Fill(score, 1e-9f);
        (score[most], score[1 - most]) = (0.8f, 0.2f);
        return score;
    }

    private static float[] Swapped(float[] score)
    {
        var other = (float[])score.Clone();
        (other[0], other[1]) = (score[1], score[0]);
        return other;
    }
}
