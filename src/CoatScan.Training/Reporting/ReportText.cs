using System.Globalization;
using System.Text;
using CoatScan.Training.Evaluation;

namespace CoatScan.Training.Reporting;

/// <summary>An evaluation as Markdown.</summary>
internal static class ReportText
{
    public static string Evaluation(EvaluationReport report)
    {
        var text = new StringBuilder();
        text.AppendLine("# Evaluation of the visual classifier");
        text.AppendLine();
        text.AppendLine(Invariant(
            $"Model {report.ModelVersion}, digest `{report.ModelSha256}`. Intervals are 95 % percentile bootstraps over groups."));
        text.AppendLine("Every figure was measured by the training program in one run; evaluation.json holds them all.");
        text.AppendLine();
        text.AppendLine("## Rendered panels (invented; other seeds than training and calibration)");
        text.AppendLine();
        Set(text, report.Rendered);
        text.AppendLine(
            "Probabilities were turned from the class shares expected in use to the equal shares of this set.");
        text.AppendLine(Invariant(
            $"As they come: macro-F1 {Show(report.RenderedAsExpected.MacroF1)}, ECE {Show(report.RenderedAsExpected.Ece10)}."));
        text.AppendLine(Invariant(
            $"Ordinary camera alone: macro-F1 {Show(report.RenderedOrdinary.MacroF1)}, ECE {Show(report.RenderedOrdinary.Ece10)}."));
        text.AppendLine(Invariant(
            $"Harsh camera alone: macro-F1 {Show(report.RenderedHarsh.MacroF1)}, ECE {Show(report.RenderedHarsh.Ece10)}."));
        text.AppendLine(Invariant($"Cells marked by the network against the masks: F1 {report.CellF1:0.00}."));
        text.AppendLine();
        text.AppendLine("## Real photos (evaluation only, never trained on)");
        text.AppendLine();
        if (report.Real is null)
        {
            text.AppendLine("Not evaluated in this run.");
            return text.ToString();
        }

        text.AppendLine(report.RealCredit);
        text.AppendLine();
        Set(text, report.Real);
        return text.ToString();
    }

    /// <summary>One set of photos.</summary>
    public static string Set(SetReport set)
    {
        var text = new StringBuilder();
        Set(text, set);
        return text.ToString();
    }

    /// <summary>The table of compared models.</summary>
    public static string Ablation(IReadOnlyList<AblationRow> rows)
    {
        var text = new StringBuilder();
        text.AppendLine("| model | rendered macro-F1 | rendered ECE | real macro-F1 | real, labelled classes only | real ECE |");
        text.AppendLine("| --- | --- | --- | --- | --- | --- |");
        foreach (var row in rows)
        {
            text.AppendLine(Invariant(
                $"| {row.Model} | {row.RenderedMacroF1:0.000} | {row.RenderedEce10:0.000} | {Show(row.RealMacroF1)} | {Show(row.RealMacroF1AmongOccurring)} | {Show(row.RealEce10)} |"));
        }

        return text.ToString();
    }

    public static string Show(Interval interval) =>
        Invariant($"{interval.Value:0.000} ({interval.Low:0.000} to {interval.High:0.000})");

    public static string Show(double? value) =>
        value is { } number ? number.ToString("0.000", CultureInfo.InvariantCulture) : "-";

    public static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    private static void Set(StringBuilder text, SetReport set)
    {
        text.AppendLine(Invariant($"{set.Count} photos in {set.Groups} groups: {set.Photos}."));
        text.AppendLine();
        text.AppendLine("| figure | value |");
        text.AppendLine("| --- | --- |");
        text.AppendLine($"| macro-F1 without not_a_panel, all answers allowed | {Show(set.MacroF1)} |");
        text.AppendLine($"| macro-F1 of all classes | {Show(set.MacroF1AllClasses)} |");
        text.AppendLine($"| macro-F1, only occurring classes allowed | {Show(set.MacroF1AmongOccurring)} |");
        text.AppendLine($"| accuracy | {Show(set.Accuracy)} |");
        text.AppendLine($"| true class among the three most probable | {Show(set.TopThree)} |");
        text.AppendLine($"| expected calibration error, 10 bins | {Show(set.Ece10)} |");
        text.AppendLine($"| Brier score | {Show(set.Brier)} |");
        text.AppendLine($"| panels called no panel | {Show(set.PanelsRefused)} |");
        text.AppendLine($"| non-panels called no panel | {Show(set.NonPanelsRefused)} |");
        text.AppendLine($"| familiar | {Show(set.Familiar)} |");
        text.AppendLine();
        text.AppendLine("| class | photos | precision | recall | F1 |");
        text.AppendLine("| --- | --- | --- | --- | --- |");
        foreach (var row in set.Classes)
        {
            text.AppendLine(Invariant(
                $"| {row.VisualClass} | {row.Photos} | {Show(row.Precision)} | {Show(row.Recall)} | {Show(row.F1)} |"));
        }

        text.AppendLine();
        Confusion(text, set);
    }

    private static void Confusion(StringBuilder text, SetReport set)
    {
        text.AppendLine("True class by row; what was called, most often first:");
        text.AppendLine();
        for (var row = 0; row < set.Confusion.Length; row++)
        {
            if (set.Confusion[row].Sum() == 0)
            {
                continue;
            }

            var calls = set.Confusion[row]
                .Select((count, column) => (count, column))
                .Where(cell => cell.count > 0)
                .OrderByDescending(cell => cell.count)
                .Select(cell => Invariant($"{set.Names[cell.column]} {cell.count}"));
            text.AppendLine($"- {set.Names[row]}: {string.Join(", ", calls)}");
        }

        text.AppendLine();
    }
}
