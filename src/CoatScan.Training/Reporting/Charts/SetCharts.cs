using CoatScan.Training.Evaluation;

namespace CoatScan.Training.Reporting.Charts;

/// <summary>The drawings that go with the evaluation of one set of photos.</summary>
internal static class SetCharts
{
    /// <summary>Writes <c>PREFIX-confusion.svg</c>, <c>PREFIX-reliability.svg</c> and <c>PREFIX-risk-coverage.svg</c>.</summary>
    public static void Write(SetReport set, string folder, string prefix)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, $"{prefix}-confusion.svg"), ConfusionChart.Draw(set));
        File.WriteAllText(Path.Combine(folder, $"{prefix}-reliability.svg"), ReliabilityChart.Draw(set));
        File.WriteAllText(Path.Combine(folder, $"{prefix}-risk-coverage.svg"), RiskCoverageChart.Draw(set));
    }

    /// <summary>The drawings as Markdown, relative to the folder they lie in.</summary>
    public static string Markdown(string prefix) =>
        $"![confusion]({prefix}-confusion.svg)\n\n![reliability]({prefix}-reliability.svg)\n\n![risk over coverage]({prefix}-risk-coverage.svg)\n";
}
