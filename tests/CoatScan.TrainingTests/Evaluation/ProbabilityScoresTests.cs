using System.Text.Json;
using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class ProbabilityScoresTests
{
    private static readonly JsonElement Case = ScienceCases.Stats.GetProperty("ece");

    private static readonly double[] Confidence = Case.GetProperty("conf").Doubles();

    private static readonly bool[] Right = [.. Case.GetProperty("correct").Doubles().Select(value => value == 1)];

    [Theory]
    [InlineData(10, "ece10")]
    [InlineData(5, "ece5")]
    public void ExpectedCalibrationError_of_the_reference_answers_is_the_published_one(int bins, string key) =>
        Assert.Equal(
            Case.GetProperty(key).GetDouble(),
            ProbabilityScores.ExpectedCalibrationError(Confidence, Right, bins),
            1e-6);

    [Fact]
    public void MaximumCalibrationError_of_the_reference_answers_is_the_published_one() =>
        Assert.Equal(
            Case.GetProperty("mce10").GetDouble(), ProbabilityScores.MaximumCalibrationError(Confidence, Right), 1e-6);

    [Fact]
    public void Brier_and_log_loss_of_the_reference_answers_are_the_published_ones()
    {
        Assert.Equal(
            Case.GetProperty("brier_binary").GetDouble(), ProbabilityScores.BinaryBrier(Confidence, Right), 1e-6);
        Assert.Equal(Case.GetProperty("logloss").GetDouble(), ProbabilityScores.BinaryLogLoss(Confidence, Right), 1e-6);
    }

    [Fact]
    public void Brier_over_all_classes_is_two_when_surely_wrong_and_zero_when_surely_right()
    {
        Assert.Equal(2, ProbabilityScores.Brier([[1, 0]], [1]));
        Assert.Equal(0, ProbabilityScores.Brier([[1, 0]], [0]));
    }

    [Fact]
    public void ExpectedCalibrationError_puts_a_bin_edge_into_the_lower_bin()
    {
        // 0.5 and 0.45 share the bin (0.4, 0.5]; one of two is right, mean confidence 0.475: gap 0.025.
        Assert.Equal(0.025, ProbabilityScores.ExpectedCalibrationError([0.5, 0.45], [true, false]), 1e-12);
    }
}
