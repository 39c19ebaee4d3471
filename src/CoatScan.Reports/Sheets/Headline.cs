using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>The top of a sheet: what it is, on which panel, how sure, and the photos with what shows on them.</summary>
internal static class Headline
{
    private const string SoundCondition = "sound";
    private const int MostOthers = 3;
    private const int MostInRow = 4;
    private const int MostInRowOfMany = 6;
    private const int TwoRows = 2 * MostInRow;
    private const double WorthNaming = 0.05;

    /// <summary>The finding in two or three words.</summary>
    public static string Title(Finding finding, SheetWords words) => finding switch
    {
        { Verdict: Verdict.NotAssessable } => words.TitleNotAssessable,
        { Verdict: Verdict.Sound } => words.TitleSound,
        { Verdict: Verdict.Provisional, Conditions: [{ Condition: SoundCondition }, ..] } => words.TitleNothingSeen,
        { Verdict: Verdict.Inconclusive } => words.TitleUndecided,
        { Conditions: [var lead, ..] } => ConditionName.Of(lead),
        _ => words.TitleUndecided,
    };

    /// <summary>The finding in a cell of a table: an undecided one names what leads, and a question mark says that it only leads.</summary>
    public static string Leading(Finding finding, SheetWords words) => finding switch
    {
        { Verdict: Verdict.Inconclusive, Conditions: [var lead, ..] } => $"{ConditionName.Of(lead)} {words.Percent(lead.Probability)}?",
        _ => Title(finding, words),
    };

    /// <summary>The same in one sentence, with how sure it is.</summary>
    public static string Sentence(Finding finding, SheetWords words)
    {
        if (finding.Verdict == Verdict.NotAssessable)
        {
            return words.SentenceNotAssessable;
        }

        if (finding.Conditions is not [var lead, ..])
        {
            return words.SentenceNothingLeads;
        }

        string name = ConditionName.Of(lead);
        string share = words.Percent(lead.Probability);
        return finding.Verdict switch
        {
            Verdict.Conclusive => words.Fill(words.SentenceDecided, name, share),
            Verdict.Sound => words.SentenceSound,
            Verdict.Provisional when lead.Condition == SoundCondition => words.SentenceNothingSeen,
            Verdict.Provisional => words.Fill(words.SentenceProvisional, name, share),
            _ => words.Fill(words.SentenceUndecided, string.Join(", ", Named(finding.Conditions, words))),
        };
    }

    public static IEnumerable<Block> Blocks(FindingSubject subject, SheetWords words)
    {
        yield return new Heading(1, Title(subject.Finding, words));
        yield return new Paragraph(Tone.Lead, Sentence(subject.Finding, words));
        List<(string, string)> facts = [.. Facts(subject, words)];
        int half = (facts.Count + 1) / 2;
        yield return new Beside([new FactList(facts[..half])], [new FactList(facts[half..])]);
        foreach (Block block in Pictures(subject, words))
        {
            yield return block;
        }
    }

    /// <summary>The photos with what shows on them, and how sure it is and why.</summary>
    /// <param name="subject">The finding with its pictures.</param>
    /// <param name="words">Words of the language.</param>
    /// <param name="isOfSeveral">Whether it is one panel of a vehicle: its pictures are smaller, and what is said stands beside them.</param>
    public static IEnumerable<Block> Pictures(FindingSubject subject, SheetWords words, bool isOfSeveral = false)
    {
        bool isSmall = subject.Finding.Photos.Count > MostInRow;
        List<Block> sure = [.. Sure(subject.Finding, words)];
        List<Figure> figures = [.. PhotoFigure.All(subject, words, isSmall)];
        List<Block> notes = isSmall ? [.. PhotoFigure.Notes(subject, words)] : [];
        if (isOfSeveral && figures.Count is (1 or 2))
        {
            return [new Beside([.. figures.Select(figure => (IReadOnlyList<Block>)[figure]), sure]) { IsLastWide = true }, .. notes];
        }

        if (figures.Count == 1)
        {
            return [new Beside([figures[0], .. notes], sure)];
        }

        if (figures.Count == 2)
        {
            return [new Beside([figures[0]], [figures[1]]), .. notes, .. sure];
        }

        // As many in a row as let the sheet keep to two pages; what is said stands beside one or two that make no full row.
        int each = figures.Count > TwoRows ? MostInRowOfMany : Math.Clamp(figures.Count, 3, MostInRow);
        int rest = figures.Count % each;
        bool isBeside = rest is 1 or 2;
        List<Block> rows = [.. figures.Take(figures.Count - (isBeside ? rest : 0)).Chunk(each).Select(row => Row(row, each))];
        return isBeside
            ? [.. rows, new Beside([.. figures.TakeLast(rest).Select(figure => (IReadOnlyList<Block>)[figure]), [.. notes, .. sure]]) { IsLastWide = rest == 1 }]
            : [.. rows, .. notes, .. sure];
    }

    // A row that is not full keeps the size of its pictures.
    private static Beside Row(Figure[] figures, int columns) =>
        new([.. figures.Select(figure => (IReadOnlyList<Block>)[figure]), .. Enumerable.Repeat<IReadOnlyList<Block>>([], columns - figures.Length)]);

    public static IEnumerable<(string, string)> Facts(FindingSubject subject, SheetWords words)
    {
        Finding finding = subject.Finding;
        if (finding.Panel.Length > 0)
        {
            yield return (words.Panel, finding.Panel);
        }

        if (finding.ExternalRef.Length > 0)
        {
            yield return (words.Reference, finding.ExternalRef);
        }

        yield return (finding.Photos.Count > 0 ? words.Photos : words.Case, Name(subject, words));
        yield return (words.FoundOn, words.Format.Minute(finding.CreateTime));
    }

    /// <summary>The photo without its folder, or of several the first and how many more there are; the provenance names each.</summary>
    public static string Name(FindingSubject subject, SheetWords words) => subject.Finding.Photos is [{ DisplayName.Length: > 0 } first, ..] all
        ? first.DisplayName[(first.DisplayName.LastIndexOfAny(['/', '\\']) + 1)..] + (all.Count > 1 ? " " + words.Fill(words.AndMore, all.Count - 1) : "")
        : subject.Finding.Photos.Count > 0 ? subject.Name[(subject.Name.LastIndexOfAny(['/', '\\']) + 1)..] : subject.Name;

    public static IEnumerable<Block> Sure(Finding finding, SheetWords words)
    {
        yield return new Heading(2, words.HowSure) { Look = 3 };
        if (finding.VerdictReasons.Count > 0)
        {
            yield return new ItemList(false, [.. finding.VerdictReasons.Select(reason => new Text[] { Phrases.Sentence(reason) })]);
        }

        if (finding.Conditions.Count > 1 && finding.Verdict is Verdict.Conclusive or Verdict.Provisional or Verdict.Sound)
        {
            string others = string.Join(", ", Named(
                [.. finding.Conditions.Skip(1).Where(one => !finding.Beside.Contains(one.Condition) && one.Probability >= WorthNaming)], words));
            if (others.Length > 0)
            {
                yield return new Paragraph(Tone.Plain, Text.Bold(words.Otherwise + " "), others + ".");
            }
        }

        if (finding.Beside.Count > 0)
        {
            yield return new Paragraph(
                Tone.Plain,
                Text.Bold(words.AlsoPresent + " "),
                string.Join(", ", finding.Beside.Select(id => ConditionName.Of(finding, id))) + ".");
        }
    }

    private static IEnumerable<string> Named(IReadOnlyList<ConditionShare> conditions, SheetWords words) => conditions
        .Where((one, rank) => rank == 0 || one.Probability >= WorthNaming)
        .Take(MostOthers)
        .Select(one => $"{ConditionName.Of(one)} {words.Percent(one.Probability)}");
}
