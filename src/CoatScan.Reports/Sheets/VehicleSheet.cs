using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Several panels of one vehicle: all of them, worst first, then what is only of each; what is of all is said once.</summary>
public static class VehicleSheet
{
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
        string title = vehicle.Length > 0 ? SheetWords.Fill(words.VehicleTitle, vehicle) : words.VehicleTitleOpen;
        List<OverviewEntry> entries =
            [.. ordered.Select((one, at) => new OverviewEntry(one.Name, one.Finding, Href: "#" + Anchor(at))), .. failed];
        List<Block> blocks =
        [
            new Heading(1, title),
            .. Overview.Blocks(entries, words),
            .. ClaimOverview.Parties(ordered, words),
            .. ClaimOverview.Dates(ordered, words),
            .. ClaimOverview.Questions(ordered, words),
            .. Shared(ordered, words),
            .. ClaimOverview.PhotoLog(ordered, words),
        ];
        HashSet<string> cautions = ordered.Count > 1 ? [.. InAll(ordered, one => one.Cautions)] : [];
        HashSet<HandOver> handOvers = ordered.Count > 1 ? [.. InAll(ordered, one => one.HandOvers)] : [];
        blocks.AddRange(ordered.Count > 0 ? [new NewPage()] : []);
        for (int at = 0; at < ordered.Count; at++)
        {
            Finding finding = ordered[at].Finding;
            blocks.AddRange(FindingSheet.PanelBlocks(
                ordered[at] with
                {
                    Finding = finding with
                    {
                        Cautions = [.. finding.Cautions.Where(one => !cautions.Contains(one))],
                        HandOvers = [.. finding.HandOvers.Where(one => !handOvers.Contains(one))],
                    },
                },
                words,
                guideHref,
                Anchor(at)));
        }

        blocks.Add(new Paragraph(Tone.Small, words.SmallPrint));

        return new(title, title, words.Language, blocks);
    }

    // What holds for every panel is said once, before them.
    private static IEnumerable<Block> Shared(List<FindingSubject> subjects, SheetWords words) => subjects.Count < 2
        ? []
        : RemedySection.Safety(InAll(subjects, one => one.Cautions), InAll(subjects, one => one.HandOvers), words);

    private static IReadOnlyList<T> InAll<T>(List<FindingSubject> subjects, Func<Finding, IReadOnlyList<T>> each) =>
        [.. each(subjects[0].Finding).Where(one => subjects.All(subject => each(subject.Finding).Contains(one)))];

    private static string Anchor(int at) => string.Create(CultureInfo.InvariantCulture, $"panel-{at + 1}");
}
