using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>The parts of a finding sheet one by one, for a page that gives them places of its own.</summary>
/// <param name="subject">The finding with its pictures.</param>
/// <param name="words">Words of the language.</param>
/// <param name="guideHref">Address of the photo guide, to lead from a retake to its picture; empty for none.</param>
public sealed class FindingParts(FindingSubject subject, SheetWords words, string guideHref)
{
    private readonly FindingSubject _subject = FindingWords.In(subject, words.Trade);

    private Finding Finding => _subject.Finding;

    /// <summary>The finding in two or three words.</summary>
    public string Title => Headline.Title(Finding, words);

    /// <summary>The same for a place with little room: an undecided finding names what leads.</summary>
    public string Leading => Finding is { Verdict: Verdict.Inconclusive, Conditions: [var lead, ..] }
        ? CleanText.Of($"{Phrases.Capital(words.VerdictShort(Finding.Verdict))}: {ConditionName.Of(lead)} {words.Percent(lead.Probability)}")
        : Title;

    /// <summary>The same in one sentence, with how sure it is.</summary>
    public string Sentence => Headline.Sentence(Finding, words);

    /// <summary>Panel, reference, photos, time.</summary>
    public IReadOnlyList<Block> Facts => [new FactList([.. Headline.Facts(_subject, words)])];

    /// <summary>How sure it is and why.</summary>
    public IReadOnlyList<Block> Sure => [.. Headline.Sure(Finding, words)];

    /// <summary>The photos with what shows on them.</summary>
    public IReadOnlyList<Figure> Figures => [.. PhotoFigure.All(_subject, words)];

    /// <summary>What to do and what not.</summary>
    public IReadOnlyList<Block> Remedy => [.. RemedySection.Blocks(Finding, words)];

    /// <summary>What speaks for and against, look-alikes, contradictions.</summary>
    public IReadOnlyList<Block> Evidence => [.. EvidenceSection.Blocks(Finding, words)];

    /// <summary>Ratings, measured values, limits of the photos.</summary>
    public IReadOnlyList<Block> Measured => [.. MeasurementSection.Blocks(Finding, words, guideHref)];

    /// <summary>Why it came about, who answers, whether dates fit.</summary>
    public IReadOnlyList<Block> Answer => AnswerSection.Blocks(Finding, words);

    /// <summary>What the finding was made from.</summary>
    public IReadOnlyList<Block> Provenance => [.. ProvenanceSection.Blocks(Finding, words), new Paragraph(Tone.Small, words.SmallPrint)];
}
