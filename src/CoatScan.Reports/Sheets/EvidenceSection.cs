using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What speaks for and against the leading condition, what looks alike, and what does not fit together.</summary>
internal static class EvidenceSection
{
    // Natural logarithms of the factors 4 and 2: strong and clear evidence in everyday words.
    private const double StrongLog = 1.386;
    private const double ClearLog = 0.693;
    private const double NothingLog = 0.05;

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words)
    {
        List<Block> alike = [.. LookAlikes(finding, words)];
        if (finding.Verdict != Verdict.NotAssessable && finding.Conditions is [var lead, ..])
        {
            var weights = lead.Evidence
                .Where(one => one.Id != "base" && !one.Id.StartsWith("cap.", StringComparison.Ordinal))
                .ToList();
            List<IReadOnlyList<Text>> up = [.. weights.Where(one => one.WeightLog > NothingLog)
                .OrderByDescending(one => one.WeightLog).Select(one => Say(one, finding, words))];
            List<IReadOnlyList<Text>> down = [.. weights.Where(one => one.WeightLog < -NothingLog)
                .OrderBy(one => one.WeightLog).Select(one => Say(one, finding, words))];
            if (up.Count + down.Count > 0)
            {
                yield return new Heading(2, words.Fill(words.EvidenceOn, ConditionName.Of(lead)));
                // One sign and nothing against it leaves room beside it for what looks alike.
                bool isShort = up.Count == 1 && down.Count == 0;
                foreach (Block block in isShort ? Columns.Of([.. Sides(up, down, words)], alike) : Sides(up, down, words))
                {
                    yield return block;
                }

                alike = isShort ? [] : alike;
            }
        }

        List<string> open = [.. finding.VisualClasses.Where(one => one.Possible).Select(one => words.VisualClass(one.VisualClass))];
        if (finding.SetCoverage is { } coverage && open.Count > 1)
        {
            yield return new Paragraph(
                Tone.Small, words.Fill(words.CannotExclude, string.Join(", ", open), words.Percent(coverage)));
        }

        foreach (Block block in alike)
        {
            yield return block;
        }

        if (finding.Contradictions.Count > 0)
        {
            yield return new Heading(3, words.Contradictions);
            yield return new ItemList(false, [.. finding.Contradictions.Select(one => new Text[]
            {
                Phrases.Sentence(one.Text) + " " + Phrases.Sentence(one.Consequence),
            })]);
        }
    }

    private static IEnumerable<Block> LookAlikes(Finding finding, SheetWords words)
    {
        if (finding.LookAlikes.Count > 0)
        {
            yield return new Heading(3, words.LookAlikes);
            yield return new ItemList(false, [.. finding.LookAlikes.Select(one => new Text[]
            {
                Text.Bold($"{ConditionName.Of(finding, one.Condition)} / {ConditionName.Of(finding, one.Other)}"),
                one.Tell.Length > 0 ? ": " + one.Tell.TrimEnd('.') + "." : ".",
            })]);
        }
    }

    // One side alone takes both columns rather than leave one empty.
    private static IEnumerable<Block> Sides(List<IReadOnlyList<Text>> up, List<IReadOnlyList<Text>> down, SheetWords words)
    {
        if (down.Count > 0)
        {
            return [new Beside(Column(words.SpeaksFor, up, words), Column(words.SpeaksAgainst, down, words))];
        }

        int half = (up.Count + 1) / 2;
        return
        [
            new Heading(3, words.SpeaksFor),
            up.Count == 1 ? new ItemList(false, up) : new Beside([new ItemList(false, [.. up.Take(half)])], [new ItemList(false, [.. up.Skip(half)])]),
            new Paragraph(Tone.Plain, Text.Bold(words.SpeaksAgainst + ": "), words.NothingKnown),
        ];
    }

    private static List<Block> Column(string title, List<IReadOnlyList<Text>> items, SheetWords words) =>
    [
        new Heading(3, title),
        items.Count > 0 ? new ItemList(false, items) : new Paragraph(Tone.Plain, words.NothingKnown),
    ];

    private static Text[] Say(EvidenceWeight weight, Finding finding, SheetWords words)
    {
        EvidenceItem? item = finding.Evidence.FirstOrDefault(one => one.Id == weight.Id);
        string text = item?.Text is { Length: > 0 } said ? said : weight.Reason.Length > 0 ? weight.Reason : Phrases.OfId(weight.Id);
        string strength = Math.Abs(weight.WeightLog) switch { >= StrongLog => words.Strong, >= ClearLog => words.Clear, _ => words.Slight };
        string by = item is { SaidBy.Count: > 0 } ? "; " + string.Join(", ", item.SaidBy) : "";
        return [Phrases.Capital(text.TrimEnd('.', ' ')), $" ({strength}{by})."];
    }
}
