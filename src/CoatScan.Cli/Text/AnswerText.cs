using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>Who answers, from which cause, and whether the time fits.</summary>
internal static class AnswerText
{
    private const double WorthNaming = 0.05;
    private const int MostParties = 3;
    private const int MostCauses = 2;
    private const int MostReasons = 3;

    /// <summary>Writes the party, the likely causes and the timing.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        // A sound finish has nobody to answer for it, decided or not.
        if (finding.Verdict is Verdict.NotAssessable or Verdict.Sound
            || finding.Conditions is [{ Condition: TradeWords.SoundCondition }, ..])
        {
            return;
        }

        var words = page.Words;
        page.Entry("WHO", Parties(finding, words));
        page.Entry("", Reasons(finding, words));
        page.Entries("CAUSE", Causes(finding, words));
        var timing = TradeWords.Timing(finding.Timing?.Class ?? "");
        var fits = finding.Timing is { Fits.Count: > 0 } ? " " + words.Fill("Fits: {0}.", words.SayList(finding.Timing.Fits)) : "";
        var not = finding.Timing is { DoesNotFit.Count: > 0 }
            ? " " + words.Fill("Does not fit: {0}.", words.SayList(finding.Timing.DoesNotFit))
            : "";
        page.Entry("WHEN", $"{(timing.Length > 0 ? words.Fill($"It comes {timing}.") : "")}{fits}{not}".Trim());
        if (finding.Verdict is Verdict.Conclusive or Verdict.Provisional && finding.Claim is { Dates: "DOES_NOT_FIT" } claim)
        {
            page.Entry("ASK", string.Join(" ", claim.Questions.Select(words.Say)));
        }
    }

    private static string Parties(Finding finding, ReaderWords words)
    {
        var parties = finding.Parties
            .Where((one, rank) => rank == 0 || one.Probability >= WorthNaming)
            .Take(MostParties)
            .Select(one => (Name: one.Text.Length > 0 ? one.Text : Phrase.OfId(one.Party), one.Probability))
            .Select(one => $"{words.Say(one.Name)} {words.Say(Findings.ShareText.Percent(one.Probability))}")
            .ToList();
        if (parties.Count == 0)
        {
            return "";
        }

        var list = $"{Phrase.Capital(parties[0])}{string.Concat(parties.Skip(1).Select(one => $"; {one}"))}.";
        return finding.PartyVerdict switch
        {
            Verdict.Conclusive => words.Fill("Decided. {0}", list),
            Verdict.Provisional => words.Fill("Probable. {0}", list),
            _ => words.Fill("Not decided. {0}", list),
        };
    }

    // For the leading party only: the others' reasons are in the JSON and in the tables of --explain.
    private static string Reasons(Finding finding, ReaderWords words)
    {
        if (finding.Parties is not [var lead, ..])
        {
            return "";
        }

        var speaksFor = lead.SpeaksFor.Take(MostReasons).ToList();
        var against = lead.SpeaksAgainst.Take(MostReasons).ToList();
        var text = (speaksFor.Count > 0 ? words.Fill("For: {0}.", words.SayList(speaksFor)) + " " : "")
            + (against.Count > 0 ? words.Fill("Against: {0}.", words.SayList(against)) : "");
        return text.Trim();
    }

    private static IEnumerable<string> Causes(Finding finding, ReaderWords words)
    {
        var lead = finding.Conditions is [var first, ..] ? first.Condition : "";
        return finding.Causes
            .Where(one => one.Condition == lead)
            .Take(MostCauses)
            .Where((one, rank) => rank == 0 || one.Probability >= WorthNaming)
            .Select(one =>
            {
                var how = one.Mechanism.Length > 0 ? $": {words.Bare(one.Mechanism)}" : "";
                return $"{Phrase.Capital(words.Say(one.Text))}, {words.Say(Findings.ShareText.Percent(one.Probability))}{how}.";
            });
    }
}
