using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Several panels of one vehicle: all of them, worst first, then what is only of each; what is of all is said once.</summary>
public static class VehicleSheet
{
    // It is long: its letters are as small as those of a crowded finding sheet, which are read with ease.
    private const double Letters = 0.91;

    /// <summary>Puts the sheet together.</summary>
    /// <param name="vehicle">The caller's reference of the vehicle; empty if there is none.</param>
    /// <param name="subjects">The findings with their pictures, in any order.</param>
    /// <param name="failed">What has no finding, and why.</param>
    /// <param name="words">Words of the language.</param>
    /// <param name="guideHref">File of the photo guide; empty for none.</param>
    public static Sheet Of(
        string vehicle,
        IReadOnlyList<FindingSubject> subjects,
        IReadOnlyList<OverviewEntry> failed,
        SheetWords words,
        string guideHref = "")
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(subjects);
        ArgumentNullException.ThrowIfNull(failed);
        ArgumentNullException.ThrowIfNull(words);
        List<FindingSubject> ordered = [.. subjects.OrderBy(one => OverviewOrder.Of(one.Finding)).Select(one => FindingWords.In(one, words.Trade))];
        string title = vehicle.Length > 0 ? words.Fill(words.VehicleTitle, vehicle) : words.VehicleTitleOpen;
        List<OverviewEntry> entries =
            [.. ordered.Select((one, at) => new OverviewEntry(one.Name, one.Finding, Href: "#" + Anchor(at))), .. failed];
        Common common = ordered.Count > 1 ? Common.Of(ordered) : Common.None;
        List<Block> blocks =
        [
            new Heading(1, title),
            .. Overview.Blocks(entries, words),
            .. ClaimOverview.Parties(ordered, words),
            .. ClaimOverview.Dates(ordered, words),
            .. ClaimOverview.Questions(ordered, words),
            .. NextTestSection.OfAll(ordered, words),
            .. Shared(common, words, guideHref),
        ];
        for (int at = 0; at < ordered.Count; at++)
        {
            blocks.AddRange(Panel(ordered[at] with { Finding = common.TakenFrom(ordered[at].Finding) }, words, guideHref, Anchor(at)));
        }

        blocks.AddRange([
            .. ClaimOverview.PhotoLog(ordered, words),
            .. ordered.Count > 0 ? ProvenanceSection.OfAll(ordered, words) : [],
            new Paragraph(Tone.Small, words.SmallPrint),
        ]);
        return new(title, title, words.Language, blocks) { Scale = Letters };
    }

    // The overview has reference, parties, dates, tests and provenance of each.
    private static IEnumerable<Block> Panel(FindingSubject subject, SheetWords words, string guideHref, string anchor)
    {
        Finding finding = subject.Finding;
        return
        [
            new Heading(1, $"{(finding.Panel.Length > 0 ? Phrases.Capital(finding.Panel) : subject.Subject)}: {Headline.Title(finding, words)}", anchor),
            new Paragraph(Tone.Lead, Headline.Sentence(finding, words)),
            .. Headline.Pictures(subject, words, isOfSeveral: true),
            .. RemedySection.Blocks(finding, words),
            .. NextTestSection.Names(finding, words),
            .. EvidenceSection.Blocks(finding, words),
            .. MeasurementSection.Blocks(finding, words, guideHref, isOfSeveral: true),
            .. AnswerSection.Blocks(finding, words, isOfSeveral: true),
        ];
    }

    // What holds for every panel is said once, before them.
    private static IEnumerable<Block> Shared(Common common, SheetWords words, string guideHref) =>
    [
        .. common.MustNot.Count > 0 ? [RemedySection.MustNot(common.MustNot, words)] : Array.Empty<Block>(),
        .. RemedySection.Safety(common.Cautions, common.HandOvers, words),
        .. LimitSection.Shared(common.Issues, common.Absent, words, guideHref),
    ];

    private static string Anchor(int at) => string.Create(CultureInfo.InvariantCulture, $"panel-{at + 1}");
}
