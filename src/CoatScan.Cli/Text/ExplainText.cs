using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>The reasoning of a finding as tables: every weight, its sum, and the share that follows from the sums.</summary>
internal static class ExplainText
{
    private const int MostConditions = 3;
    private const int MostCauses = 4;

    private static readonly string[] TestHeads = ["test", "gain", "minutes", "trace", "why"];

    /// <summary>Writes the tables of conditions, causes and tests.</summary>
    public static void Write(TextPage page, Finding finding, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(finding);
        if (finding.Conditions.Count == 0)
        {
            return;
        }

        var words = page.Words;
        page.Rule('-');
        page.Paragraph(words.Fill(
            "Reasoning. Each number is the natural logarithm of the factor that a piece of evidence puts on a candidate: "
            + "above 0 for it, below 0 against it. Share: e to the sum, divided by that of all {0} conditions together.",
            finding.Conditions.Count));
        page.Gap();
        Candidates(
            page,
            widthColumns,
            finding,
            [.. finding.Conditions.Take(MostConditions).Select(one => (words.Say(TradeWords.Condition(finding, one.Condition)), one.Probability, one.Evidence))]);

        var lead = finding.Conditions[0];
        var causes = finding.Causes.Where(one => one.Condition == lead.Condition).Take(MostCauses).ToList();
        if (causes.Count > 0)
        {
            page.Gap();
            page.Paragraph(words.Fill("Causes of {0}, by the same rule.", words.Say(TradeWords.Condition(finding, lead.Condition))));
            page.Gap();
            Candidates(
                page,
                widthColumns,
                finding,
                [.. causes.Select(one => ($"{Cause(one, words)} ({Party(one.Party, finding, words)})", one.Probability, one.Evidence))]);
        }

        if (finding.NextTests.Count > 0)
        {
            page.Gap();
            page.Paragraph(words.Fill("Tests, most useful first. Gain: bits that the test is expected to tell about the condition."));
            page.Gap();
            TextTable.Write(
                page,
                widthColumns,
                [.. TestHeads.Select(head => words.Fill(head))],
                [.. finding.NextTests.Select(one => new[]
                {
                    one.Test,
                    one.HasGainBits ? one.GainBits.ToString("0.00", words.Format.Marks) : "-",
                    Number(one.Minutes),
                    Number(one.Invasiveness),
                    words.Say(one.Reason),
                })]);
        }
    }

    private static void Candidates(
        TextPage page,
        int widthColumns,
        Finding finding,
        IReadOnlyList<(string Name, double Share, Google.Protobuf.Collections.RepeatedField<EvidenceWeight> Weights)> candidates)
    {
        var words = page.Words;

        // What moves the leading candidate most comes first; what moves only others after it; the base weight last.
        var ids = candidates
            .SelectMany(one => one.Weights.Select(weight => weight.Id))
            .Distinct(StringComparer.Ordinal)
            .OrderBy(id => id == "base")
            .ToList();
        var rows = ids.Select(id => (string[])
        [
            id,
            .. candidates.Select(one => one.Weights.FirstOrDefault(weight => weight.Id == id) is { } weight ? Log(weight.WeightLog, words) : "."),
            Who(finding, id, words),
        ]).ToList();
        rows.Add([words.Fill("sum"), .. candidates.Select(one => Log(one.Weights.Sum(weight => weight.WeightLog), words)), ""]);
        rows.Add([words.Fill("share"), .. candidates.Select(one => words.Say(Findings.ShareText.Percent(one.Share))), ""]);
        TextTable.Write(page, widthColumns, [words.Fill("evidence"), .. candidates.Select(one => one.Name), words.Fill("said by")], rows);
    }

    private static string Cause(CauseShare one, ReaderWords words) =>
        words.Bare(one.Text.Length > 0 ? one.Text : Phrase.OfId(one.Cause));

    private static string Party(string id, Finding finding, ReaderWords words) =>
        words.Say(finding.Parties.FirstOrDefault(one => one.Party == id) is { Text.Length: > 0 } party ? party.Text : Phrase.OfId(id));

    private static string Who(Finding finding, string id, ReaderWords words) => id switch
    {
        "base" => words.Fill("how often it is met"),
        _ when id.StartsWith("cap.", StringComparison.Ordinal) => words.Fill("limit of a group"),
        _ when finding.Evidence.FirstOrDefault(one => one.Id == id) is { SaidBy.Count: > 0 } item => words.SayList(item.SaidBy),
        _ => "",
    };

    private static string Log(double weight, ReaderWords words) => weight.ToString("+0.00;-0.00;0.00", words.Format.Marks);

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
