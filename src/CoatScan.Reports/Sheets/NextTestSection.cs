using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Which tests to make next, how, and what each decides.</summary>
internal static class NextTestSection
{
    private const int MostTests = 3;

    // The others are named below.
    private const int MostTestsOfCrowded = 2;
    private const int MostFurther = 5;

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words)
    {
        if (finding.NextTests.Count == 0)
        {
            yield break;
        }

        int most = CrowdedSheet.Is(finding) ? MostTestsOfCrowded : MostTests;
        yield return new Heading(2, words.NextTests);
        yield return new Table(
            words.NextTestsCaption,
            [(words.Test, 1.5), (words.How, 3.2), (words.TimeAndTrace, 1.4), (words.Decides, 2.4)],
            [.. finding.NextTests.Take(most).Select(one => Row(one, words))]);
        if (finding.NextTests.Count > most)
        {
            yield return new Paragraph(
                Tone.Plain,
                Text.Bold(words.AfterThat + " "),
                string.Join(", ", finding.NextTests.Skip(most).Take(MostFurther).Select(Name)) + ".");
        }
    }

    /// <summary>Name of a test.</summary>
    public static string Name(NextTest test) => test.DisplayName.Length > 0 ? test.DisplayName : Phrases.Capital(Phrases.OfId(test.Test));

    private static IReadOnlyList<Text> Row(NextTest test, SheetWords words) =>
    [
        Text.Bold(Name(test)),
        string.Join(" ", new[]
        {
            Phrases.Sentence(test.How),
            test.Caution.Length > 0 ? SheetWords.Fill(words.Mind, test.Caution.TrimEnd('.')) : "",
            Phrases.Sentence(test.Consent),
        }.Where(part => part.Length > 0)),
        SheetWords.Fill(words.Minutes, test.Minutes) + ", " + words.Trace(test.Invasiveness),
        Phrases.Sentence(test.Reason),
    ];
}
