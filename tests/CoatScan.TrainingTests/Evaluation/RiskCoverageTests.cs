using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class RiskCoverageTests
{
    private static readonly double[] Confidence = [0.9, 0.8, 0.7, 0.6];
    private static readonly bool[] Right = [true, true, false, false];

    // By hand: the surer half is all right, three of four have one wrong, all have two.
    [Theory]
    [InlineData(0.5, 0.8, 0)]
    [InlineData(0.75, 0.7, 1.0 / 3)]
    [InlineData(1, 0.6, 0.5)]
    public void At_counts_the_wrong_ones_among_the_surest(double coverage, double confidence, double risk)
    {
        var point = RiskCoverage.At(Confidence, Right, coverage);

        Assert.Equal(coverage, point.Coverage, 1e-12);
        Assert.Equal(confidence, point.Confidence, 1e-12);
        Assert.Equal(risk, point.Risk, 1e-12);
    }

    [Fact]
    public void Photos_of_equal_confidence_come_in_together() =>
        Assert.Equal(1, RiskCoverage.At([0.5, 0.5, 0.5], [true, false, true], 0.4).Coverage);

    [Fact]
    public void Of_ends_with_all_photos() => Assert.Equal(1, RiskCoverage.Of(Confidence, Right)[^1].Coverage);
}
