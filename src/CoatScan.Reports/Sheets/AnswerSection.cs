using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Why it came about, who answers for it with what speaks for and against, and whether stated dates fit.</summary>
internal static class AnswerSection
{
    private const double WorthNaming = 0.05;
    private const int MostCauses = 3;

    public static IReadOnlyList<Block> Blocks(Finding finding, SheetWords words, bool isOfSeveral = false)
    {
        // A sound finish has nobody to answer for it.
        if (finding.Verdict is Verdict.NotAssessable or Verdict.Sound || finding.Conditions is [{ Condition: "sound" }, ..])
        {
            return [];
        }

        string lead = finding.Conditions is [var first, ..] ? first.Condition : "";
        List<CauseShare> causes = [.. finding.Causes
            .Where(one => one.Condition == lead)
            .Take(MostCauses)
            .Where((one, rank) => rank == 0 || one.Probability >= WorthNaming)];
        List<PartyShare> parties = [.. finding.Parties.Where((one, rank) => rank == 0 || one.Probability >= WorthNaming)];
        if (causes.Count + parties.Count == 0)
        {
            return [];
        }

        List<Block> why = [];
        if (causes.Count > 0)
        {
            why.Add(new Heading(3, words.LikelyCauses));
            why.Add(new ItemList(true, [.. causes.Select(one => new Text[]
            {
                Text.Bold($"{Phrases.Capital(one.Text.Length > 0 ? one.Text : Phrases.OfId(one.Cause))}, {words.Percent(one.Probability)}"),
                one.Mechanism.Length > 0 ? $": {one.Mechanism.TrimEnd('.')}." : ".",
            })]));
        }

        if (isOfSeveral)
        {
            return why;
        }

        List<Block> who = parties.Count == 0 ? [] :
        [
            new Paragraph(Tone.Plain, Text.Bold(words.WhoAnswers + " "), words.PartyVerdict(finding.PartyVerdict)),
            Parties(parties, words),
        ];

        // With its reasons the table of parties needs the full width.
        bool isWide = parties.Any(one => one.For.Count + one.Against.Count > 0);
        return
        [
            new Heading(2, words.WhyAndWho),
            .. Columns.Of(isWide ? why : [.. why, .. who], [.. Dates(finding, words)]),
            .. isWide ? who : [],
        ];
    }

    private static Table Parties(List<PartyShare> parties, SheetWords words)
    {
        bool anyReason = parties.Any(one => one.For.Count + one.Against.Count > 0);
        List<(string, double)> columns = [(words.Party, 1.7), (words.Share, 0.7)];
        columns.AddRange(anyReason ? [(words.SpeaksFor, 2.6), (words.SpeaksAgainst, 2.6)] : []);
        return new(words.PartiesCaption, columns, [.. parties.Select(one =>
        {
            List<Text> row = [Phrases.Capital(one.Text.Length > 0 ? one.Text : Phrases.OfId(one.Party)), words.Percent(one.Probability)];
            row.AddRange(anyReason ? [string.Join("; ", one.For), string.Join("; ", one.Against)] : []);
            return row;
        })]);
    }

    private static IEnumerable<Block> Dates(Finding finding, SheetWords words)
    {
        Timing timing = finding.Timing;
        ClaimSheet claim = finding.Claim;
        List<(string, string)> rows = [];
        if (timing.Class != TimingClass.CannotTell)
        {
            rows.Add((words.ItComes, words.TimingClass(timing.Class)));
        }

        if (timing.Fits.Count > 0)
        {
            rows.Add((words.Fits, Phrases.Sentence(string.Join("; ", timing.Fits))));
        }

        if (timing.DoesNotFit.Count > 0)
        {
            rows.Add((words.DoesNotFit, Phrases.Sentence(string.Join("; ", timing.DoesNotFit))));
        }

        if (claim.DatesText.Length > 0)
        {
            rows.Add((words.StatedDates, Phrases.Sentence(claim.DatesText)));
        }

        if (claim.SignsOfAge.Length > 0)
        {
            rows.Add((words.SignsOfAge, Phrases.Sentence(claim.SignsOfAge)));
        }

        if (claim.Questions.Count > 0)
        {
            rows.Add((words.ToAsk, string.Join(" ", claim.Questions.Select(Phrases.Sentence))));
        }

        if (rows.Count > 0)
        {
            yield return new Heading(3, words.WhenItCame);
            foreach (var (label, text) in rows)
            {
                yield return new Paragraph(Tone.Plain, Text.Bold(label + ": "), text);
            }
        }
    }
}
