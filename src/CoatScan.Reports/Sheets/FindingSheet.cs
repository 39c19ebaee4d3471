namespace CoatScan.Reports;

/// <summary>One finding as a sheet to file: what, how sure and why, what to do, and what it was made from.</summary>
/// <remarks>Every part that a finding has appears; a part that it lacks has no heading and no value in its place.</remarks>
public static class FindingSheet
{
    /// <summary>Puts the sheet together.</summary>
    /// <param name="subject">The finding with its pictures.</param>
    /// <param name="words">Words of the language.</param>
    /// <param name="guideHref">File of the photo guide, to lead from a retake to its picture; empty for none.</param>
    public static Sheet Of(FindingSubject subject, SheetWords words, string guideHref = "")
    {
        ArgumentNullException.ThrowIfNull(subject);
        ArgumentNullException.ThrowIfNull(words);
        subject = FindingWords.In(subject, words.Trade);
        IReadOnlyList<Block> blocks = Blocks(subject, words, guideHref, CrowdedSheet.Is(subject.Finding));
        if (CrowdedSheet.Is(blocks))
        {
            blocks = Blocks(subject, words, guideHref, isCrowded: true);
        }

        return new(
            $"{Headline.Title(subject.Finding, words)}: {subject.Subject}",
            $"{words.FindingSheet}  |  {string.Join("  |  ", new[] { subject.Subject, subject.Finding.ExternalRef, subject.Finding.Name }.Where(one => one.Length > 0))}",
            words.Language,
            blocks)
        {
            WantedPages = 2,
        };
    }
    private static IReadOnlyList<Block> Blocks(FindingSubject subject, SheetWords words, string guideHref, bool isCrowded) =>
    [
        .. Headline.Blocks(subject, words),
        .. RemedySection.Blocks(subject.Finding, words),
        .. NextTestSection.Blocks(subject.Finding, words, isCrowded),
        .. EvidenceSection.Blocks(subject.Finding, words),
        .. MeasurementSection.Blocks(subject.Finding, words, guideHref, isCrowded: isCrowded),
        .. AnswerSection.Blocks(subject.Finding, words),
        .. ProvenanceSection.Blocks(subject.Finding, words),
        new Paragraph(Tone.Small, words.SmallPrint),
    ];
}
