using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>The top of a sheet: what it is, on which panel, how sure, and the photos with what shows on them.</summary>
internal static class Headline
{
    private const string SoundCondition = "sound";
    private const int MostOthers = 3;
    private const int MostInRow = 4;
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
            Verdict.Conclusive => SheetWords.Fill(words.SentenceDecided, name, share),
            Verdict.Sound => words.SentenceSound,
            Verdict.Provisional when lead.Condition == SoundCondition => words.SentenceNothingSeen,
            Verdict.Provisional => SheetWords.Fill(words.SentenceProvisional, name, share),
            _ => SheetWords.Fill(words.SentenceUndecided, string.Join(", ", Named(finding.Conditions, words))),
        };
    }

    public static IEnumerable<Block> Blocks(FindingSubject subject, SheetWords words, string anchor)
    {
        Finding finding = subject.Finding;
        yield return new Heading(1, Title(finding, words), anchor);
        yield return new Paragraph(Tone.Lead, Sentence(finding, words));
        yield return new FactList([.. Facts(subject, words)]);
        List<Block> sure = [.. Sure(finding, words)];
        List<Figure> figures = [.. PhotoFigure.All(subject, words)];
        if (figures.Count == 1)
        {
            yield return new Beside([figures[0]], sure);
            yield break;
        }

        if (figures.Count == 2)
        {
            yield return new Beside([figures[0]], [figures[1]]);
        }
        else
        {
            // As many in a row as let the sheet keep to two pages; what is said stands beside one or two that make no full row.
            int each = Math.Clamp(figures.Count, 3, MostInRow);
            int full = figures.Count / each * each;
            foreach (Figure[] row in figures.Take(full).Chunk(each))
            {
                yield return Row(row);
            }

            List<Figure> rest = [.. figures.Skip(full)];
            if (rest.Count > 2)
            {
                yield return Row(rest);
            }
            else if (rest.Count > 0)
            {
                yield return new Beside([.. rest.Select(figure => (IReadOnlyList<Block>)[figure]), sure]) { IsLastWide = rest.Count == 1 };
                yield break;
            }
        }

        foreach (Block block in sure)
        {
            yield return block;
        }
    }

    private static Beside Row(IEnumerable<Figure> figures) => new([.. figures.Select(figure => (IReadOnlyList<Block>)[figure])]);

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
        yield return (words.FoundOn, finding.CreateTime.UtcDateTime.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture));
    }

    // Of several photos the first and how many more there are; the provenance names each.
    private static string Name(FindingSubject subject, SheetWords words) => subject.Finding.Photos is [{ DisplayName.Length: > 0 } first, _, ..] all
        ? first.DisplayName[(first.DisplayName.LastIndexOfAny(['/', '\\']) + 1)..] + " " + SheetWords.Fill(words.AndMore, all.Count - 1)
        : subject.Name;

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
