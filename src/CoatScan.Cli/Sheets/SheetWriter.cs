using CoatScan.Cli.Output;
using CoatScan.Cli.Photos;
using CoatScan.Findings;
using CoatScan.Reports;

namespace CoatScan.Cli.Sheets;

/// <summary>Writes the sheets of findings into the folder of <c>--out</c>, and in the end the index, the table and the photo guide.</summary>
internal sealed class SheetWriter
{
    /// <summary>Most panels of a vehicle sheet, all of which are held until it is written.</summary>
    public const int MostPanels = 40;

    private const string IndexName = "index";
    private const string GuideName = "photo-guide";
    private const string VehicleName = "vehicle";
    private const string TableName = "findings.csv";

    private readonly OutFolder _folder;
    private readonly SheetChoice _choice;
    private readonly List<OverviewEntry> _entries = [];
    private readonly List<FindingSubject> _panels = [];
    private readonly List<string> _rows = [FindingTable.Head()];

    /// <summary>Prepares the sheets of a folder.</summary>
    public SheetWriter(OutFolder folder, SheetChoice choice)
    {
        _folder = folder;
        _choice = choice;
    }

    /// <summary>Names of files without their ends that no photo may take.</summary>
    public static IReadOnlyList<string> OwnNames { get; } = [IndexName, GuideName, VehicleName];

    /// <summary>Writes the sheets of one outcome.</summary>
    /// <param name="outcome">The outcome.</param>
    /// <param name="stem">Name of its files without their ends.</param>
    /// <param name="cancellationToken">Stops writing.</param>
    /// <returns>Path of its sheet; empty where there is none.</returns>
    public async Task<string> AddAsync(PhotoOutcome outcome, string stem, CancellationToken cancellationToken)
    {
        if (outcome.Finding is not { } wire)
        {
            // The table is for programs; the sheets are for people.
            var failure = outcome.Error!.Message.Length > 0 ? outcome.Error.Message : outcome.Error.Reason;
            Note(new(outcome.Name, null, failure), new(outcome.Name, null, Words.Trade.Complain(failure)));
            return "";
        }

        var subject = new FindingSubject(
            outcome.Name, FindingFromWire.Of(wire), await PhotoPictures.OfAsync(outcome.Paths, cancellationToken));
        var file = stem + _choice.Extension;
        var path = "";
        if (Has(SheetKind.Finding))
        {
            path = await SaveAsync(file, FindingSheet.Of(subject, Words, Guide), subject.Finding, cancellationToken);
        }

        if (Has(SheetKind.Customer))
        {
            path = await SaveAsync(Path.Combine("customer", file), CustomerNote.Of(subject, Words), subject.Finding, cancellationToken);
        }

        if (Has(SheetKind.JobCard))
        {
            path = await SaveAsync(Path.Combine("job-card", file), JobCard.Of(subject, Words), subject.Finding, cancellationToken);
        }

        if (Has(SheetKind.Vehicle))
        {
            _panels.Add(subject);
        }

        var entry = new OverviewEntry(outcome.Name, subject.Finding, Href: Has(SheetKind.Finding) ? Uri.EscapeDataString(file) : "");
        Note(entry, entry.Small());
        return path;
    }

    /// <summary>Writes what stands over all outcomes.</summary>
    public async Task FinishAsync(CancellationToken cancellationToken)
    {
        List<(string, string)> others = [(Words.GuideTitle, Guide), (Words.TableOfAll, TableName)];
        var last = _entries.Where(entry => entry.Finding is not null).Select(entry => entry.Finding!).LastOrDefault();
        if (Has(SheetKind.Vehicle))
        {
            var vehicle = _panels.Select(panel => panel.Finding.ExternalRef).Distinct().ToList() is [var only] ? only : "";
            var sheet = VehicleSheet.Of(vehicle, _panels, [.. _entries.Where(entry => entry.Finding is null)], Words, Guide);
            await SaveAsync(VehicleName + _choice.Extension, sheet, last, cancellationToken);
            others.Insert(0, (sheet.Title, VehicleName + _choice.Extension));
        }

        await SaveAsync(IndexName + _choice.Extension, Overview.Of(_entries, Words, others), last, cancellationToken);
        await SaveAsync(Guide, PhotoGuide.Of(Words), last, cancellationToken);
        await _folder.WriteAsync(TableName, System.Text.Encoding.UTF8.GetBytes(string.Concat(_rows)), cancellationToken);
    }

    private SheetWords Words => _choice.Words;

    private string Guide => GuideName + _choice.Extension;

    private bool Has(SheetKind kind) => _choice.Kinds.Contains(kind);

    private void Note(OverviewEntry inTable, OverviewEntry onSheet)
    {
        _rows.Add(FindingTable.Row(inTable));
        _entries.Add(onSheet);
    }

    private Task<string> SaveAsync(string name, Sheet sheet, Finding? finding, CancellationToken cancellationToken) =>
        _folder.WriteAsync(name, _choice.Write(sheet, finding?.CreateTime ?? DateTimeOffset.UnixEpoch), cancellationToken);
}
