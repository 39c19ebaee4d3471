using System.Globalization;

namespace CoatScan.Reports;

/// <summary>Several panels of one vehicle: a page with all of them, worst first, then the sheet of each.</summary>
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
            .. ClaimOverview.PhotoLog(ordered, words),
        ];
        for (int at = 0; at < ordered.Count; at++)
        {
            blocks.Add(new NewPage());
            blocks.AddRange(FindingSheet.Blocks(ordered[at], words, guideHref, Anchor(at)));
        }

        return new(title, title, words.Language, blocks);
    }

    private static string Anchor(int at) => string.Create(CultureInfo.InvariantCulture, $"panel-{at + 1}");
}
