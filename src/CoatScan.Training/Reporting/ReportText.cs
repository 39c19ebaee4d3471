using System.Globalization;
using System.Text;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Reporting.Charts;

namespace CoatScan.Training.Reporting;

/// <summary>An evaluation as Markdown.</summary>
internal static class ReportText
{
    /// <summary>Where the drawings of a model's evaluation lie, beside it.</summary>
    public const string ChartFolder = "charts";

    public static string Evaluation(EvaluationReport report)
    {
        var text = new StringBuilder();
        text.AppendLine("# Evaluation of the visual classifier");
        text.AppendLine();
        text.AppendLine(Invariant(
            $"Model {report.ModelVersion}, digest `{report.ModelSha256}`. Intervals are 95 % percentile bootstraps over groups."));
        text.AppendLine("Every figure was measured by the training program in one run; evaluation.json holds them all.");
        text.AppendLine();
        Section(text, "Rendered panels, ordinary camera (invented; other seeds than training and calibration)", report.Rendered, "rendered");
        text.AppendLine("Of rendered sets, probabilities were turned from the class shares expected in use to the equal shares of the set.");
        text.AppendLine(Invariant($"Cells marked by the network against the masks, ordinary and harsh camera: F1 {report.CellF1:0.00}."));
        text.AppendLine();
        Section(text, "Rendered panels, harsh camera (trained on too)", report.RenderedHarsh, "harsh");
        Section(
            text, "Rendered panels, shifted: paints, lights, cameras and things that nothing was trained or calibrated on", report.RenderedShifted,
            "shifted");
        text.AppendLine("## Two faults on one panel (rendered)");
        text.AppendLine();
        text.Append(SecondFault(report.SecondFault));
        text.AppendLine();
        if (report.NonPanels is { } others)
        {
            text.AppendLine("## Invented pictures without a panel, the whole way of a photo");
            text.AppendLine();
            text.Append(others.Table);
            text.AppendLine();
        }

        text.AppendLine("## How the probabilities are scaled");
        text.AppendLine();
        text.Append(Scaling(report.Scaling));
        text.AppendLine();
        if (report.Shop is { } shop)
        {
            text.AppendLine("## A shop's own photos");
            text.AppendLine();
            text.Append(Shop(shop));
            text.AppendLine();
        }

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
        text.AppendLine(Charts("real"));
        return text.ToString();
    }

    /// <summary>The sets that are drawn too, with the start of the drawings' names.</summary>
    public static IEnumerable<(string Prefix, SetReport Set)> Charted(EvaluationReport report)
    {
        yield return ("rendered", report.Rendered);
        yield return ("harsh", report.RenderedHarsh);
        yield return ("shifted", report.RenderedShifted);
        if (report.Real is { } real)
        {
            yield return ("real", real);
        }
    }

    /// <summary>How well a second fault is named.</summary>
    public static string SecondFault(SecondFaultReport report) => Invariant($"""
        {report.TwoFaultPhotos} rendered panels with two faults, and {report.OtherPhotos} with one or none, ordinary camera.

        | figure | value |
        | --- | --- |
        | two faults: the most probable class is one of them | {Show(report.FirstRight)} |
        | two faults: both are named (recall) | {Show(report.BothNamed)} |
        | of all second classes named, those that are there (precision) | {Show(report.Precision)} |
        | one fault or none: a second class named that is not there | {Show(report.WrongBesideOne)} |
        | cells of the second class against its mask, F1 | {Show(report.CellF1)} |

        """);

    /// <summary>Temperature against vector scaling.</summary>
    public static string Scaling(ScalingReport report)
    {
        var text = new StringBuilder();
        text.AppendLine(Invariant(
            $"Log loss on calibration renders of one camera after fitting on the other, both ways: one temperature {report.TemperatureLogLoss:0.0000}, a scale and an offset a class {report.VectorLogLoss:0.0000}; used: {report.Used}, after all a tenth less sure (temperature {report.Temperature:0.00})."));
        text.AppendLine();
        text.AppendLine("| expected calibration error, 10 bins | as averaged | temperature | vector |");
        text.AppendLine("| --- | --- | --- | --- |");
        foreach (var row in report.Rows)
        {
            text.AppendLine(Invariant($"| {row.Photos} | {row.None:0.000} | {row.Temperature:0.000} | {row.Vector:0.000} |"));
        }

        return text.ToString();
    }

    /// <summary>What a shop's photos did.</summary>
    public static string Shop(ShopReport shop) => Invariant($"""
        {shop.TrainingPhotos} photos taught, each counted as {shop.Weight:0.0} rendered panels; {shop.HeldOutPhotos} photos of {shop.HeldOutGroups} other groups judged.

        | figure | taught | shipped |
        | --- | --- | --- |
        | macro-F1, the shop's held-out photos | {shop.MacroF1:0.000} | {shop.ShippedMacroF1:0.000} |
        | log loss, the same | {shop.LogLoss:0.000} | {shop.ShippedLogLoss:0.000} |
        | macro-F1, held-out renders | {shop.RenderedMacroF1:0.000} | {shop.ShippedRenderedMacroF1:0.000} |

        """);

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

    public static string Show(Interval? interval) => interval is null
        ? "-"
        : Invariant($"{interval.Value:0.000} ({interval.Low:0.000} to {interval.High:0.000})");

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
        text.AppendLine($"| accuracy among the surer half | {Show(set.AccuracySurerHalf)} |");
        text.AppendLine($"| true class among the three most probable | {Show(set.TopThree)} |");
        text.AppendLine($"| expected calibration error, 10 bins | {Show(set.Ece10)} |");
        text.AppendLine($"| the same as findings carry it, classes weighed by how often they are expected | {Show(set.Ece10AsExpected)} |");
        text.AppendLine($"| Brier score | {Show(set.Brier)} |");
        text.AppendLine($"| panels called no panel | {Show(set.PanelsRefused)} |");
        text.AppendLine($"| non-panels called no panel | {Show(set.NonPanelsRefused)} |");
        text.AppendLine($"| true class among those that cannot be excluded | {Show(set.SetCoverage)} |");
        text.AppendLine($"| the same, classes weighed by how often they are expected | {Show(set.SetCoverageAsExpected)} |");
        text.AppendLine(Invariant($"| classes that cannot be excluded, mean | {set.SetSize:0.0} |"));
        text.AppendLine($"| familiar | {Show(set.Familiar)} |");
        text.AppendLine();
        text.AppendLine("| class | photos | precision | recall (95 %) | F1 | note |");
        text.AppendLine("| --- | --- | --- | --- | --- | --- |");
        foreach (var row in set.Classes)
        {
            text.AppendLine(Invariant(
                $"| {row.VisualClass} | {row.Photos} | {Show(row.Precision)} | {Show(row.RecallInterval)} | {Show(row.F1)} | {row.Note} |"));
        }

        text.AppendLine();
        Confusion(text, set);
        text.AppendLine("| confidence | photos | mean confidence | right |");
        text.AppendLine("| --- | --- | --- | --- |");
        foreach (var bin in set.Reliability)
        {
            text.AppendLine(Invariant($"| {bin.Low:0.0} to {bin.High:0.0} | {bin.Count} | {bin.Confidence:0.000} | {bin.Right:0.000} |"));
        }

        text.AppendLine();
        text.AppendLine("| photos answered, surest first | from confidence | wrong |");
        text.AppendLine("| --- | --- | --- |");
        foreach (var point in set.RiskCoverage)
        {
            text.AppendLine(Invariant($"| {point.Coverage:0.00} | {point.Confidence:0.000} | {point.Risk:0.000} |"));
        }

        text.AppendLine();
    }

    private static void Section(StringBuilder text, string title, SetReport set, string prefix)
    {
        text.AppendLine($"## {title}");
        text.AppendLine();
        Set(text, set);
        text.AppendLine(Charts(prefix));
    }

    private static string Charts(string prefix) => SetCharts.Markdown($"{ChartFolder}/{prefix}");

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
