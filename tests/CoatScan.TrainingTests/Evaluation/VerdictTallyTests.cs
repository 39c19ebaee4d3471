using CoatScan.Findings;
using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class VerdictTallyTests
{
    [Fact]
    public void Shares_are_of_the_pictures_that_got_a_verdict()
    {
        var tally = new VerdictTally();
        tally.Add("sky", Verdict.NotAssessable);
        tally.Add("sky", Verdict.Inconclusive);
        tally.Add("text", Verdict.NotAssessable);
        tally.Add("text", Verdict.Provisional);
        tally.Add("text", null);

        var report = tally.ToReport();

        Assert.Equal((4, 0.5, 0.75), (report.Count, report.NotAssessable, report.NotAssessableOrInconclusive));
        Assert.Contains("1 more refused", report.Table, StringComparison.Ordinal);
        Assert.Contains("| sky | 0 | 0 | 1 | 0 | 1 |", report.Table, StringComparison.Ordinal);
    }
}
