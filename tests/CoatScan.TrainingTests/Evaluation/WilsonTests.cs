using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class WilsonTests
{
    // Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998), table I, method 3 (score).
    [Theory]
    [InlineData(81, 263, 0.2553, 0.3662)]
    [InlineData(15, 148, 0.0624, 0.1605)]
    [InlineData(0, 20, 0.0000, 0.1611)]
    [InlineData(1, 29, 0.0061, 0.1718)]
    public void Of_gives_the_published_interval(int hits, int all, double low, double high)
    {
        var interval = Wilson.Of(hits, all);

        Assert.Equal(low, interval.Low, 5e-5);
        Assert.Equal(high, interval.High, 5e-5);
    }
}
