using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>The reasoning of a finding as tables: every weight, its sum, and the share that follows from the sums.</summary>
internal static class ExplainText
{
    private const int MostConditions = 3;
    private const int MostCauses = 4;

    /// <summary>Writes the tables of conditions, causes and tests.</summary>
    public static void Write(TextPage page, Finding finding, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(finding);
        if (finding.Conditions.Count == 0)
        {
            return;
        }

        page.Rule('-');
        page.Paragraph(
            "Reasoning. Each number is the natural logarithm of the factor that a piece of evidence puts on a candidate: "
            + "above 0 for it, below 0 against it. Share: e to the sum, divided by that of all "
            + Number(finding.Conditions.Count) + " conditions together.");
        page.Gap();
        Candidates(
            page,
            widthColumns,
            finding,
            [.. finding.Conditions.Take(MostConditions).Select(one => (TradeWords.Condition(finding, one.Condition), one.Probability, one.Evidence))]);

        var lead = finding.Conditions[0];
        var causes = finding.Causes.Where(one => one.Condition == lead.Condition).Take(MostCauses).ToList();
        if (causes.Count > 0)
        {
            page.Gap();
            page.Paragraph($"Causes of {TradeWords.Condition(finding, lead.Condition)}, by the same rule.");
            page.Gap();
            Candidates(
                page,
                widthColumns,
                finding,
                [.. causes.Select(one => ($"{Phrase.OfId(one.Cause)} ({Phrase.OfId(one.Party)})", one.Probability, one.Evidence))]);
        }

        if (finding.NextTests.Count > 0)
        {
            page.Gap();
            page.Paragraph("Tests, most useful first. Gain: bits that the test is expected to tell about the condition.");
            page.Gap();
            TextTable.Write(
                page,
                widthColumns,
                ["test", "gain", "minutes", "trace", "why"],
                [.. finding.NextTests.Select(one => new[]
                {
                    one.Test,
                    one.HasGainBits ? one.GainBits.ToString("0.00", CultureInfo.InvariantCulture) : "-",
                    Number(one.Minutes),
                    Number(one.Invasiveness),
                    one.Reason,
                })]);
        }
    }

    private static void Candidates(
        TextPage page,
        int widthColumns,
        Finding finding,
        IReadOnlyList<(string Name, double Share, Google.Protobuf.Collections.RepeatedField<EvidenceWeight> Weights)> candidates)
    {
        // What moves the leading candidate most comes first; what moves only others after it; the base weight last.
        var ids = candidates
            .SelectMany(one => one.Weights.Select(weight => weight.Id))
            .Distinct(StringComparer.Ordinal)
            .OrderBy(id => id == "base")
            .ToList();
        var rows = ids.Select(id => (string[])
        [
            id,
            .. candidates.Select(one => one.Weights.FirstOrDefault(weight => weight.Id == id) is { } weight ? Log(weight.WeightLog) : "."),
            Who(finding, id),
        ]).ToList();
        rows.Add(["sum", .. candidates.Select(one => Log(one.Weights.Sum(weight => weight.WeightLog))), ""]);
        rows.Add(["share", .. candidates.Select(one => Share.Percent(one.Share)), ""]);
        TextTable.Write(page, widthColumns, ["evidence", .. candidates.Select(one => one.Name), "said by"], rows);
    }

    private static string Who(Finding finding, string id) => id switch
    {
        "base" => "how often it is met",
        _ when id.StartsWith("cap.", StringComparison.Ordinal) => "limit of a group",
        _ when finding.Evidence.FirstOrDefault(one => one.Id == id) is { SaidBy.Count: > 0 } item => Phrase.List([.. item.SaidBy]),
        _ => "",
    };

    private static string Log(double weight) => weight.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture);

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
