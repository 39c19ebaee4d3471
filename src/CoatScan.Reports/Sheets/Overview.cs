using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Several findings on one page, worst first.</summary>
public static class Overview
{
    /// <summary>Puts the page together: the index of a folder of sheets.</summary>
    /// <param name="entries">The findings, in any order.</param>
    /// <param name="words">Words of the language.</param>
    /// <param name="others">Further files to lead to: name and file.</param>
    public static Sheet Of(IReadOnlyList<OverviewEntry> entries, SheetWords words, IReadOnlyList<(string Name, string Href)> others)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(others);
        return Page(words.OverviewTitle, Blocks(entries, words), words, others);
    }

    /// <summary>The summary of many vehicles: their panels under their names.</summary>
    /// <param name="vehicles">The vehicles in the order in which they are wanted, worst first, each with its panels in that order.</param>
    /// <param name="words">Words of the language.</param>
    /// <param name="others">Further files to lead to: name and file.</param>
    public static Sheet OfVehicles(IReadOnlyList<OverviewVehicle> vehicles, SheetWords words, IReadOnlyList<(string Name, string Href)> others)
    {
        ArgumentNullException.ThrowIfNull(vehicles);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(others);
        List<(OverviewEntry Entry, Text First)> rows = [.. vehicles.SelectMany(vehicle => vehicle.Panels.Select((panel, at) =>
            (Said(panel, words), at == 0 ? new Text(vehicle.Name, Strong: true, vehicle.Href) : new Text(vehicle.Name))))];
        return Page(words.VehiclesTitle, [.. Written(rows, (words.Vehicle, 1.6), words.VehiclesCaption, words)], words, others);
    }

    /// <summary>The counts, the table and what it means.</summary>
    /// <param name="entries">The findings, in any order.</param>
    /// <param name="words">Words of the language.</param>
    public static IEnumerable<Block> Blocks(IReadOnlyList<OverviewEntry> entries, SheetWords words)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(words);
        List<OverviewEntry> ordered = [.. entries
            .Select(entry => Said(entry, words))
            .OrderBy(entry => entry.Finding is { } finding ? OverviewOrder.Of(finding) : OverviewOrder.Failed)];
        List<(OverviewEntry, Text)> rows = [.. ordered.Select((entry, at) => (entry, new Text((at + 1).ToString(CultureInfo.InvariantCulture))))];
        return Written(rows, (words.Number, 0.55), words.OverviewCaption, words);
    }

    private static OverviewEntry Said(OverviewEntry entry, SheetWords words) =>
        entry.Finding is { } finding ? entry with { Finding = FindingWords.In(finding, words.Trade) } : entry;

    private static Sheet Page(string title, IEnumerable<Block> body, SheetWords words, IReadOnlyList<(string Name, string Href)> others)
    {
        List<Block> blocks = [new Heading(1, title), .. body];
        if (others.Count > 0)
        {
            blocks.Add(new Heading(2, words.Also));
            blocks.Add(new ItemList(false, [.. others.Select(one => new Text[] { new(one.Name, Href: one.Href) })]));
        }

        return new(title, title, words.Language, blocks);
    }

    private static IEnumerable<Block> Written(
        IReadOnlyList<(OverviewEntry Entry, Text First)> rows, (string Head, double Share) first, string caption, SheetWords words)
    {
        List<OverviewEntry> entries = [.. rows.Select(row => row.Entry)];
        int retakes = entries.Count(entry => Retakes(entry.Finding).Any() || entry.Finding is null or { Verdict: Verdict.NotAssessable });
        int unscaled = entries.Sum(entry => entry.Finding?.Photos.Count(photo => photo.Scale.MmPerPx is null) ?? 0);
        yield return new Paragraph(Tone.Lead, retakes > 0 ? words.Fill(words.OverviewCounts, entries.Count, retakes) : words.Fill(words.OverviewCountsNone, entries.Count));
        if (unscaled > 0)
        {
            yield return new Paragraph(Tone.Plain, words.Fill(words.OverviewUnscaled, unscaled));
        }

        bool anyRating = entries.Any(entry => entry.Finding is { Ratings.Count: > 0 });
        bool anyHours = entries.Any(entry => entry.Finding is { } finding && RemedyClasses.Hours(finding.Remedy) is not null);
        List<(string, double)> columns = [first, (words.PanelOrPhoto, 2.3), (words.HeadCondition, 2.3), (words.HowSureShort, 1.5)];
        columns.AddRange(anyRating ? [(words.Rating, 1.6)] : []);
        columns.Add((words.HeadRemedy, 2));
        columns.AddRange(anyHours ? [(words.Hours, 1)] : []);
        columns.AddRange(retakes > 0 ? [(words.Retake, 1.5)] : []);
        yield return new Table(caption, columns, [.. rows.Select(row => Row(row.Entry, row.First, anyRating, anyHours, retakes > 0, words))]);
        yield return new Paragraph(Tone.Small, words.OverviewSmallPrint);
    }

    private static List<Text> Row(OverviewEntry entry, Text first, bool anyRating, bool anyHours, bool anyRetake, SheetWords words)
    {
        if (entry.Finding is not { } finding)
        {
            List<Text> failed = [first, entry.Name, Text.Bold(words.Failed), Phrases.Sentence(entry.Failure)];
            failed.AddRange(anyRating ? [""] : []);
            failed.Add("");
            failed.AddRange(anyHours ? [""] : []);
            failed.Add(words.SendAgain);
            return failed;
        }

        string file = Headline.Name(new(ShortName(entry.Name), finding, []), words);
        string name = finding.Panel.Length == 0 ? file : finding.Panel == file ? file : $"{finding.Panel} ({file})";
        List<Text> row =
        [
            first,
            new Text(name, Strong: entry.Href.Length == 0, entry.Href),
            Headline.Leading(finding, words),
            words.VerdictShort(finding.Verdict),
        ];
        row.AddRange(anyRating ? [string.Join("; ", finding.Ratings.Select(one => $"{one.Standard}: {Designation(one)}"))] : []);
        row.Add(words.RemedyRange(RemedyClasses.Of(finding.Remedy)));
        row.AddRange(anyHours ? [RemedyClasses.Hours(finding.Remedy) is { } hours ? words.Fill(words.RangeOf, words.Figure(hours.Low), words.Figure(hours.High)) : ""] : []);
        row.AddRange(anyRetake
            ? [finding.Verdict == Verdict.NotAssessable ? words.AnotherPhoto : string.Join("; ", Retakes(finding).Select(words.PhotoIssue))]
            : []);
        return row;
    }

    // The finding itself says within which limits.
    private static string Designation(Rating rating) =>
        rating.Designation.IndexOf(" (", StringComparison.Ordinal) is > 0 and var at ? rating.Designation[..at] : rating.Designation;

    private static string ShortName(string name) => name[(name.LastIndexOfAny(['/', '\\']) + 1)..] is { Length: > 0 } file ? file : name;

    // A missing scale alone spoils no finding; it is counted apart.
    private static IEnumerable<PhotoIssueCode> Retakes(Finding? finding) => finding?.Photos
        .SelectMany(photo => photo.Issues)
        .Select(issue => issue.Code)
        .Where(code => code != PhotoIssueCode.NoScale)
        .Distinct() ?? [];
}
