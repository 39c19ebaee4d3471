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
        page.Entry("WHAT", Headline(finding), Style.Strong);
        if (finding.Verdict is Verdict.Conclusive or Verdict.Provisional or Verdict.Sound)
        {
            page.Entry("", Others(finding));
            var beside = finding.Beside.Select(one => TradeWords.Condition(finding, one)).ToList();
            page.Entry("BESIDE", beside.Count > 0 ? $"{Phrase.List(beside)}, on the same panel." : "");
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
            page.Entries(label, finding.VerdictReasons.Take(MostReasons).Select(Phrase.Sentence));
        }
    }

    /// <summary>One sentence: the name, the verdict and the share.</summary>
    public static string Headline(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        if (finding.Verdict == Verdict.NotAssessable)
        {
            return "Cannot be judged from what was sent.";
        }

        if (finding.Conditions is not [var lead, ..])
        {
            return "Not decided: nothing speaks for one condition.";
        }

        var name = TradeWords.Condition(finding, lead.Condition);
        var sure = $"{Share.WordsOfLeading(lead.Probability)} ({Share.Percent(lead.Probability)})";
        return finding.Verdict switch
        {
            Verdict.Provisional when IsSound(lead) => "Nothing wrong shows; not yet certain that it is sound.",
            Verdict.Conclusive => $"{name}, decided ({Share.Percent(lead.Probability)}).",
            Verdict.Provisional => $"{name}, not yet certain: {sure}. A test could still change this.",
            Verdict.Sound => "No paint fault found, within what was shown.",
            _ => $"Not decided. Leading: {string.Join(", then ", Leaders(finding))}.",
        };
    }

    private static string Others(Finding finding)
    {
        var others = finding.Conditions
            .Skip(1)
            .Where(one => !finding.Beside.Contains(one.Condition) && one.Probability >= WorthNaming)
            .Take(MostOthers)
            .Select(one => $"{TradeWords.Condition(finding, one.Condition)} {Share.Percent(one.Probability)}")
            .ToList();
        var start = IsSound(finding.Conditions[0]) ? "Still possible" : "Otherwise";
        return others.Count == 0 ? "" : $"{start}: {Phrase.List(others)}.";
    }

    private static bool IsSound(ConditionShare lead) => lead.Condition == TradeWords.SoundCondition;

    private static List<string> Leaders(Finding finding) =>
    [
        .. finding.Conditions
            .Where((one, rank) => rank == 0 || one.Probability >= WorthNaming)
            .Take(MostOthers)
            .Select(one => $"{TradeWords.Condition(finding, one.Condition)} {Share.Percent(one.Probability)}"),
    ];
}
