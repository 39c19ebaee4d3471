using CoatScan.Training.Learning;

namespace CoatScan.TrainingTests.Learning;

public sealed class LogisticFitTests
{
    // With one yes-or-no sign the maximum of the likelihood is known: the log odds of each side.
    [Fact]
    public void Fit_of_one_sign_gives_the_log_odds_of_both_sides()
    {
        var rows = new List<double[]>();
        var truth = new List<bool>();
        for (var i = 0; i < 4000; i++)
        {
            var sign = i < 2000 ? 0.0 : 1.0;
            rows.Add([1, sign]);
            truth.Add(i % 10 < (sign > 0 ? 8 : 3));
        }

        var weights = LogisticFit.Fit(rows, truth);

        Assert.Equal(Math.Log(0.3 / 0.7), weights[0], 0.01);
        Assert.Equal(Math.Log(0.8 / 0.2) - Math.Log(0.3 / 0.7), weights[1], 0.01);
    }
}
