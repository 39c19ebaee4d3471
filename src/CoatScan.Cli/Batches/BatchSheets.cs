using CoatScan.Cli.Connection;
using CoatScan.Cli.Output;
using CoatScan.Cli.Sheets;
using CoatScan.Reports;
using CoatScan.V1;

namespace CoatScan.Cli.Batches;

/// <summary>Writes the sheets of a batch vehicle by vehicle, so that only one vehicle's photos are in memory, and in the end the summary.</summary>
internal sealed class BatchSheets(BatchOutFolder folder, SheetChoice choice, BatchReport report)
{
    private const string Summary = "summary.html";
    private const string Guide = "photo-guide.html";
    private const string VehicleFolder = "vehicles";

    private readonly FileStems _stems = new([]);
    private readonly List<OverviewVehicle> _vehicles = [];
    private DateTimeOffset _newest = DateTimeOffset.UnixEpoch;

    /// <summary>Writes all of them.</summary>
    /// <param name="vehicles">The vehicles, worst first.</param>
    /// <param name="wrote">Is told after each vehicle.</param>
    /// <param name="cancellationToken">Stops writing.</param>
    public async Task WriteAsync(IReadOnlyList<VehicleSummary> vehicles, Action wrote, CancellationToken cancellationToken)
    {
        foreach (var vehicle in vehicles)
        {
            // A vehicle sheet holds its panels in memory until it is written; a folder with more of them gives several.
            foreach (var some in vehicle.Panels.Chunk(SheetWriter.MostPanels))
            {
                await WriteAsync(vehicle.VehicleRef, some, cancellationToken);
            }

            wrote();
        }

        List<(string, string)> others = [(choice.Words.GuideTitle, Guide), (choice.Words.TableOfAll, "summary.csv")];
        await HtmlAsync(Summary, Overview.OfVehicles(_vehicles, choice.Words, others), cancellationToken);
        await HtmlAsync(Guide, PhotoGuide.Of(choice.Words), cancellationToken);
    }

    private async Task WriteAsync(string vehicle, IReadOnlyList<VehiclePanel> panels, CancellationToken cancellationToken)
    {
        var subjects = new List<FindingSubject>();
        var entries = new List<OverviewEntry>();
        var failed = new List<OverviewEntry>();
        foreach (var panel in panels)
        {
            var name = report.NameOf(panel.Item);
            if (panel.Error is { } error)
            {
                failed.Add(new(name, null, choice.Words.Trade.Complain(ServiceError.Of(error).Message)));
                entries.Add(failed[^1]);
                continue;
            }

            var finding = FindingFromWire.Of(await report.FindingAsync(panel.Finding, cancellationToken));
            var subject = new FindingSubject(name, finding, await PhotoPictures.OfAsync(report.PhotosOf(panel.Item), cancellationToken));
            var href = await PanelAsync(subject, cancellationToken);
            entries.Add(new OverviewEntry(name, finding, Href: href).Small());
            subjects.Add(subject);
            _newest = finding.CreateTime > _newest ? finding.CreateTime : _newest;
        }

        var sheet = "";
        if (choice.Kinds.Contains(SheetKind.Vehicle))
        {
            sheet = await SaveAsync(
                VehicleFolder, _stems.Take(vehicle, VehicleFolder), VehicleSheet.Of(vehicle, subjects, failed, choice.Words, Up(Guide)), cancellationToken);
        }

        _vehicles.Add(new(vehicle, sheet, entries));
    }

    private async Task<string> PanelAsync(FindingSubject subject, CancellationToken cancellationToken)
    {
        var stem = choice.Kinds.Any(kind => kind != SheetKind.Vehicle) ? _stems.Take(Path.ChangeExtension(subject.Name, null), "panel") : "";
        var href = "";
        if (choice.Kinds.Contains(SheetKind.Finding))
        {
            href = await SaveAsync("findings", stem, FindingSheet.Of(subject, choice.Words, Up(Guide)), cancellationToken);
        }

        if (choice.Kinds.Contains(SheetKind.Customer))
        {
            await SaveAsync("customer", stem, CustomerNote.Of(subject, choice.Words), cancellationToken);
        }

        if (choice.Kinds.Contains(SheetKind.JobCard))
        {
            await SaveAsync("job-card", stem, JobCard.Of(subject, choice.Words), cancellationToken);
        }

        return href;
    }

    // Sheets lie in folders of their own.
    private static string Up(string file) => "../" + file;

    private async Task<string> SaveAsync(string below, string stem, Sheet sheet, CancellationToken cancellationToken)
    {
        var file = stem + choice.Extension;
        await folder.WriteAsync(Path.Combine(below, file), choice.Write(sheet, _newest), cancellationToken);
        return $"{below}/{Uri.EscapeDataString(file)}";
    }

    private Task HtmlAsync(string name, Sheet sheet, CancellationToken cancellationToken) =>
        folder.WriteAsync(name, System.Text.Encoding.UTF8.GetBytes(HtmlWriter.Write(sheet, choice.Paper)), cancellationToken);
}
