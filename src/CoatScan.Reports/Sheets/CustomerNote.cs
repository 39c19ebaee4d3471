using System.Text.RegularExpressions;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>A page for the vehicle's owner: what was found in plain words, and a card of how to keep it from coming back.</summary>
public static partial class CustomerNote
{
    /// <summary>Puts the page together.</summary>
    /// <param name="subject">The finding.</param>
    /// <param name="words">Words of the language.</param>
    public static Sheet Of(FindingSubject subject, SheetWords words)
    {
        ArgumentNullException.ThrowIfNull(subject);
        ArgumentNullException.ThrowIfNull(words);
        Finding finding = FindingWords.In(subject.Finding, words.Trade);
        List<(string, string)> facts = [];
        if (finding.Panel.Length > 0)
        {
            facts.Add((words.Panel, finding.Panel));
        }

        if (finding.ExternalRef.Length > 0)
        {
            facts.Add((words.Reference, finding.ExternalRef));
        }

        facts.Add((words.FoundOn, words.Format.Day(finding.CreateTime)));
        List<Block> blocks = [new Heading(1, words.NoteTitle), new FactList(facts)];
        blocks.AddRange(finding.CustomerText.Length > 0
            ? Labeled().Split(finding.CustomerText).Select(Part)
            : [new Paragraph(Tone.Plain, Headline.Sentence(finding, words))]);
        if (finding.CareAdvice.Count > 0)
        {
            blocks.Add(new Frame(words.CareTitle, [
                new ItemList(false, [.. finding.CareAdvice.Select(one => new Text[] { Phrases.Sentence(one) })]),
            ]));
        }

        blocks.Add(new Paragraph(Tone.Small, words.NoteSmallPrint));
        return new($"{words.NoteTitle}: {subject.Subject}", $"{words.NoteTitle}  |  {subject.Subject}", words.Language, blocks) { Scale = 1.3 };
    }

    // The text is sentences, some of which begin with what they answer: "What it means: ...".
    private static Paragraph Part(string text)
    {
        int colon = text.IndexOf(": ", StringComparison.Ordinal);
        return colon is > 0 and < 60
            ? new(Tone.Plain, Text.Bold(text[..(colon + 1)] + " "), Phrases.Sentence(text[(colon + 2)..]))
            : new(Tone.Plain, text);
    }

    [GeneratedRegex(@"(?<=[.!?]) (?=\p{Lu}[^.:!?]{2,56}: )")]
    private static partial Regex Labeled();
}
