using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What it is and how sure that is.</summary>
internal static class VerdictText
{
    private const double WorthNaming = 0.05;
    private const int MostOthers = 3;
    private const int MostReasons = 4;

    /// <summary>Writes the headline and what keeps the verdict from being a firmer one.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        var words = page.Words;
        page.Entry("WHAT", Headline(finding, words), Style.Strong);
        if (finding.Verdict is Verdict.Conclusive or Verdict.Provisional or Verdict.Sound)
        {
            page.Entry("", Others(finding, words));
            var beside = finding.Beside.Select(one => words.Say(TradeWords.Condition(finding, one))).ToList();
            page.Entry("BESIDE", beside.Count > 0 ? words.Fill("{0}, on the same panel.", words.List(beside)) : "");
        }

        var label = finding.Verdict switch
        {
            Verdict.NotAssessable => "MISSING",
            Verdict.Inconclusive => "MISSING",
            Verdict.Provisional => "NOT YET",
            _ => "LIMITS",
        };
        if (finding.Verdict is not Verdict.Conclusive)
        {
            page.Entries(label, finding.VerdictReasons.Take(MostReasons).Select(words.Sentence));
        }
    }

    /// <summary>One sentence: the name, the verdict and the share.</summary>
    public static string Headline(Finding finding, ReaderWords words)
    {
        ArgumentNullException.ThrowIfNull(finding);
        if (finding.Verdict == Verdict.NotAssessable)
        {
            return words.Fill("Cannot be judged from what was sent.");
        }

        if (finding.Conditions is not [var lead, ..])
        {
            return words.Fill("Not decided: nothing speaks for one condition.");
        }

        var name = words.Say(TradeWords.Condition(finding, lead.Condition));
        var percent = words.Say(Findings.ShareText.Percent(lead.Probability));
        var sure = $"{words.Fill(Share.WordsOfLeading(lead.Probability))} ({percent})";
        return finding.Verdict switch
        {
            Verdict.Provisional when IsSound(lead) => words.Fill("Nothing wrong shows; not yet certain that it is sound."),
            Verdict.Conclusive => words.Fill("{0}, decided ({1}).", name, percent),
            Verdict.Provisional => words.Fill("{0}, not yet certain: {1}. A test could still change this.", name, sure),
            Verdict.Sound => words.Fill("No paint fault found, within what was shown."),
            _ => words.Fill("Not decided. Leading: {0}.", Leaders(finding, words)),
        };
    }

    private static string Others(Finding finding, ReaderWords words)
    {
        var others = finding.Conditions
            .Skip(1)
            .Where(one => !finding.Beside.Contains(one.Condition) && one.Probability >= WorthNaming)
            .Take(MostOthers)
            .Select(one => Named(one, finding, words))
            .ToList();
        return others.Count == 0 ? "" : words.Fill(IsSound(finding.Conditions[0]) ? "Still possible: {0}." : "Otherwise: {0}.", words.List(others));
    }

    private static bool IsSound(ConditionShare lead) => lead.Condition == TradeWords.SoundCondition;

    private static string Leaders(Finding finding, ReaderWords words) => finding.Conditions
        .Where((one, rank) => rank == 0 || one.Probability >= WorthNaming)
        .Take(MostOthers)
        .Select(one => Named(one, finding, words))
        .Aggregate((first, next) => words.Fill("{0}, then {1}", first, next));

    private static string Named(ConditionShare one, Finding finding, ReaderWords words) =>
        $"{words.Say(TradeWords.Condition(finding, one.Condition))} {words.Say(Findings.ShareText.Percent(one.Probability))}";
}
