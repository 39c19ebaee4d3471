using CoatScan.Batches;
using CoatScan.Reports;
using CoatScan.Storage;

namespace CoatScan.Service.Page;

/// <summary>What is taken from a lane: the table, the lines for programs, the summary to print.</summary>
internal sealed class LaneFiles(LanePages lanes, IBatchLedger ledger, FindingStore store)
{
    /// <summary>Every finding of a lane as a table.</summary>
    public async Task TableAsync(HttpContext http)
    {
        await BeginFileAsync(http, "text/csv; charset=utf-8", "csv").ConfigureAwait(false);
        await http.Response.WriteAsync(FindingTable.Head(), http.RequestAborted).ConfigureAwait(false);
        await foreach (var item in lanes.ItemsAsync(LanePages.Id(http), http.RequestAborted).ConfigureAwait(false))
        {
            OverviewEntry? entry = item switch
            {
                { Finding: { } finding } => new(NameOf(item), await store.GetAsync(finding, http.RequestAborted).ConfigureAwait(false)),
                { State: ItemState.Failed, Error: { } error } => new(NameOf(item), null, error.Message),
                _ => null,
            };
            if (entry is not null)
            {
                await http.Response.WriteAsync(FindingTable.Row(entry), http.RequestAborted).ConfigureAwait(false);
            }
        }
    }

    /// <summary>Every finding of a lane for programs, one line of JSON each.</summary>
    public async Task LinesAsync(HttpContext http)
    {
        await BeginFileAsync(http, "application/x-ndjson", "ndjson").ConfigureAwait(false);
        await foreach (var item in lanes.ItemsAsync(LanePages.Id(http), http.RequestAborted).ConfigureAwait(false))
        {
            var line = item switch
            {
                { Finding: { } finding } => LaneLine.Of(await store.GetAsync(finding, http.RequestAborted).ConfigureAwait(false)),
                { State: ItemState.Failed, Error: { } error } => LaneLine.Of(NameOf(item), error),
                _ => "",
            };
            if (line.Length > 0)
            {
                await http.Response.WriteAsync(line + "\n", http.RequestAborted).ConfigureAwait(false);
            }
        }
    }

    /// <summary>All vehicles of a lane on one sheet, worst first.</summary>
    public async Task PrintAsync(HttpContext http)
    {
        var id = LanePages.Id(http);
        await ledger.GetAsync(id, http.RequestAborted).ConfigureAwait(false);
        var context = PageWriter.ContextOf(http);
        var newest = DateTimeOffset.UnixEpoch;
        var vehicles = new List<OverviewVehicle>();
        foreach (var vehicle in await lanes.VehiclesAsync(id, http.RequestAborted).ConfigureAwait(false))
        {
            var panels = new List<OverviewEntry>();
            foreach (var panel in vehicle.Panels)
            {
                panels.Add(await EntryAsync(vehicle.VehicleRef, panel, context, http.RequestAborted).ConfigureAwait(false));
                newest = panels[^1].Finding is { } finding && finding.CreateTime > newest ? finding.CreateTime : newest;
            }

            if (panels.Count > 0)
            {
                vehicles.Add(new(vehicle.VehicleRef, LanePages.Address(id, vehicle.VehicleRef), panels));
            }
        }

        await SheetAnswer.SendAsync(http, Overview.OfVehicles(vehicles, context.Sheets, []), newest).ConfigureAwait(false);
    }

    // A lane that is not there is told in a page, before anything of the file has gone out.
    private async Task BeginFileAsync(HttpContext http, string mediaType, string extension)
    {
        var lane = await ledger.GetAsync(LanePages.Id(http), http.RequestAborted).ConfigureAwait(false);
        http.Response.ContentType = mediaType;
        http.Response.Headers.ContentDisposition = $"attachment; filename=\"{lane.Id}.{extension}\"";
    }

    private static string NameOf(BatchItem item) => item.Given.VehicleRef + (item.Given.Facts.Panel.Length > 0 ? "/" + item.Given.Facts.Panel : "");

    private async Task<OverviewEntry> EntryAsync(string vehicle, VehiclePanel panel, PageContext context, CancellationToken cancellationToken)
    {
        if (panel.Error is { } error)
        {
            return new(panel.Panel.Length > 0 ? panel.Panel : vehicle, null, context.Words.Refusal(error.Reason) ?? context.Sheets.Trade.Complain(error.Message));
        }

        var finding = await store.GetAsync(panel.Finding!, cancellationToken).ConfigureAwait(false);
        return new OverviewEntry(FindingPages.NameOf(finding), finding, Href: "/findings/" + FindingPages.IdOf(finding)).Small();
    }
}
