using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>The steps of a remedy as lines for the job card: what, until when to hold, when to stop, room to sign off.</summary>
public static class JobCard
{
    /// <summary>Puts the card together.</summary>
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

        facts.Add((words.Case, subject.Name));
        facts.Add((words.Finding, finding.Name.Length > 0 ? finding.Name : words.NotStored));
        List<Block> blocks =
        [
            new Heading(1, words.JobTitle),
            new Paragraph(Tone.Lead, Headline.Sentence(finding, words)),
            new FactList(facts),
            finding.Remedy.Steps.Count > 0 ? RemedySection.Steps(finding.Remedy.Steps, words.JobCaption, words, signOff: true) : new Paragraph(Tone.Plain, words.JobNothing),
        ];
        if (finding.Remedy.MustNot.Count > 0)
        {
            blocks.Add(RemedySection.MustNot(finding.Remedy.MustNot, words));
        }

        if (finding.Cautions.Count > 0)
        {
            blocks.Add(new Heading(2, words.Safety) { Look = 3 });
            blocks.Add(new ItemList(false, [.. finding.Cautions.Select(one => new Text[] { Phrases.Sentence(one) })]));
        }

        return new($"{words.JobTitle}: {subject.Subject}", $"{words.JobTitle}  |  {subject.Subject}", words.Language, blocks) { Scale = 1.15 };
    }
}
