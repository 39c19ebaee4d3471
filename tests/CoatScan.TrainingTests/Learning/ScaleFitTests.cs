using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.TrainingTests.Learning;

public sealed class ScaleFitTests
{
    [Theory]
    [InlineData(1.0, "T1")]
    [InlineData(2.0, "T2")]
    [InlineData(0.5, "T05")]
    public void Softmax_of_the_reference_scores_is_the_published_one(double temperature, string key)
    {
        var reference = ScienceCases.Stats.GetProperty("softmax");

        var shares = SoftMax.Of(reference.GetProperty("x").Doubles(), temperature);

        Assert.Equal(reference.GetProperty(key).Doubles(), shares, (a, b) => Math.Abs(a - b) < 1e-6);
    }

    [Fact]
    public void Temperature_of_a_model_twice_too_sure_is_two()
    {
        // Truth drawn in proportion to (0.8, 0.2); the model says what temperature 0.5 makes of it.
        var said = SoftMax.Of([Math.Log(0.8), Math.Log(0.2)], 0.5).Select(p => (float)p).ToArray();
        var scores = Enumerable.Repeat(said, 1000).ToArray();
        var truth = Enumerable.Range(0, 1000).Select(i => i < 800 ? 0 : 1).ToArray();

        Assert.Equal(2, ScaleFit.Temperature(scores, truth), 0.01);
    }

    [Fact]
    public void Lambda_of_honest_probabilities_is_one_and_of_worthless_ones_small()
    {
        double[] said = [0.8, 0.2];
        var probabilities = Enumerable.Repeat(said, 1000).ToArray();

        Assert.Equal(1, ScaleFit.Lambda(probabilities, [.. Enumerable.Range(0, 1000).Select(i => i < 800 ? 0 : 1)]), 0.01);
        Assert.True(ScaleFit.Lambda(probabilities, [.. Enumerable.Range(0, 1000).Select(i => i % 2)]) < 0.06);
    }
}
