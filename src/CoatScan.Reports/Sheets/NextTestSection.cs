using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Which tests to make next, how, and what each decides.</summary>
internal static class NextTestSection
{
    private const int MostTests = 3;

    // The others are named below.
    private const int MostTestsOfCrowded = 2;
    private const int MostFurther = 5;

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words, bool isCrowded)
    {
        if (finding.NextTests.Count == 0)
        {
            yield break;
        }

        int most = isCrowded ? MostTestsOfCrowded : MostTests;
        yield return new Heading(2, words.NextTests);
        yield return Table(words.NextTestsCaption, [.. finding.NextTests.Take(most).Select(one => Row(one, Phrases.Sentence(one.Reason), words))], words);
        if (finding.NextTests.Count > most)
        {
            yield return new Paragraph(
                Tone.Plain,
                Text.Bold(words.AfterThat + " "),
                string.Join(", ", finding.NextTests.Skip(most).Take(MostFurther).Select(Name)) + ".");
        }
    }

    /// <summary>The next tests of several findings, each once with what it decides on which; the others are named with each finding.</summary>
    public static IEnumerable<Block> OfAll(IReadOnlyList<FindingSubject> subjects, SheetWords words)
    {
        var tests = subjects
            .SelectMany(one => one.Finding.NextTests.Take(MostTestsOfCrowded).Select(test => (one.Subject, Test: test)))
            .GroupBy(one => one.Test.Test)
            .Select(group => Row(group.First().Test, Decides([.. group.Select(one => (one.Subject, one.Test.Reason))]), words))
            .ToList();
        return tests.Count == 0 ? [] : [new Heading(2, words.NextTests), Table(words.NextTestsOfAll, tests, words)];
    }

    /// <summary>The next tests of one finding among several by their names.</summary>
    public static IEnumerable<Block> Names(Finding finding, SheetWords words) => finding.NextTests.Count == 0
        ? []
        : [new Paragraph(Tone.Plain, Text.Bold(words.NextTests + ": "), string.Join(", ", finding.NextTests.Take(MostTestsOfCrowded + MostFurther).Select(Name)) + ".")];

    // What a test decides on several panels alike is said once.
    private static string Decides(IReadOnlyList<(string Subject, string Reason)> reasons) => string.Join(" ", reasons
        .GroupBy(one => one.Reason, one => one.Subject)
        .Select(group => string.Join(", ", group) + ": " + Phrases.Sentence(group.Key)));

    private static Table Table(string caption, IReadOnlyList<IReadOnlyList<Text>> rows, SheetWords words) =>
        new(caption, [(words.Test, 1.5), (words.How, 3.2), (words.TimeAndTrace, 1.4), (words.Decides, 2.4)], rows);

    /// <summary>Name of a test.</summary>
    public static string Name(NextTest test) => test.DisplayName.Length > 0 ? test.DisplayName : Phrases.Capital(Phrases.OfId(test.Test));

    private static IReadOnlyList<Text> Row(NextTest test, string decides, SheetWords words) =>
    [
        Text.Bold(Name(test)),
        string.Join(" ", new[]
        {
            Phrases.Sentence(test.How),
            test.Caution.Length > 0 ? words.Fill(words.Mind, test.Caution.TrimEnd('.')) : "",
            Phrases.Sentence(test.Consent),
        }.Where(part => part.Length > 0)),
        words.Fill(words.Minutes, test.Minutes) + ", " + words.Trace(test.Invasiveness),
        decides,
    ];
}
