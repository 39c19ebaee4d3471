using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Reports;
using CoatScan.Storage;

namespace CoatScan.Service.Page;

/// <summary>Several panels of one vehicle: of a claim by its reference, or of a lane by the vehicle's folder.</summary>
internal sealed class ClaimPages(PageWriter writer, FindingStore store, IBatchLedger ledger, LanePages lanes, FindingPages findings)
{
    private const int MostFindings = 200;

    /// <summary>Address of the panels with a reference.</summary>
    public static string Address(string reference) => "/claims?reference=" + Uri.EscapeDataString(reference);

    /// <summary>Shows the panels with a reference.</summary>
    public async Task ShowAsync(HttpContext http)
    {
        var reference = Reference(http);
        var panels = await OfReferenceAsync(reference, http.RequestAborted).ConfigureAwait(false);
        await SendAsync(http, new ClaimModel(reference, await WithAddressesAsync(panels, http.RequestAborted).ConfigureAwait(false), [])
        {
            SheetHref = "/claims/sheet?reference=" + Uri.EscapeDataString(reference),
            Reference = reference,
        }).ConfigureAwait(false);
    }

    /// <summary>The vehicle sheet of a reference.</summary>
    public async Task PrintAsync(HttpContext http)
    {
        var reference = Reference(http);
        var panels = await OfReferenceAsync(reference, http.RequestAborted).ConfigureAwait(false);
        if (panels.Count == 0)
        {
            throw new CoatScanException(
                ErrorReason.FindingNotFound,
                $"There is no finding with the reference '{reference}'.",
                "reference",
                new Dictionary<string, string> { ["name"] = reference });
        }

        await PrintAsync(http, reference, panels, []).ConfigureAwait(false);
    }

    /// <summary>Shows a vehicle of a lane.</summary>
    public async Task ShowVehicleAsync(HttpContext http)
    {
        var lane = await ledger.GetAsync(LanePages.Id(http), http.RequestAborted).ConfigureAwait(false);
        var (name, panels, failed) = await OfLaneAsync(http).ConfigureAwait(false);
        await SendAsync(http, new ClaimModel(name, await WithAddressesAsync(panels, http.RequestAborted).ConfigureAwait(false), failed)
        {
            SheetHref = $"/lanes/{lane.Id}/vehicle/sheet?name={Uri.EscapeDataString(name)}",
            Lane = (LanePages.NameOf(lane, PageWriter.ContextOf(http).Words), $"/lanes/{lane.Id}"),
        }).ConfigureAwait(false);
    }

    /// <summary>The sheet of a vehicle of a lane.</summary>
    public async Task PrintVehicleAsync(HttpContext http)
    {
        var (name, panels, failed) = await OfLaneAsync(http).ConfigureAwait(false);
        await PrintAsync(http, name, panels, failed).ConfigureAwait(false);
    }

    private Task SendAsync(HttpContext http, ClaimModel model) =>
        writer.SendAsync<Views.ClaimView>(http, model.Title, new() { [nameof(Views.ClaimView.Model)] = model });

    private async Task PrintAsync(HttpContext http, string name, IReadOnlyList<Finding> panels, IReadOnlyList<OverviewEntry> failed)
    {
        var subjects = new List<FindingSubject>(panels.Count);
        foreach (var panel in panels)
        {
            subjects.Add(await findings.PrintedAsync(panel, http.RequestAborted).ConfigureAwait(false));
        }

        var sheet = VehicleSheet.Of(name, subjects, failed, PageWriter.ContextOf(http).Sheets, SheetAnswer.GuideFor(http.Request));
        var newest = panels.Select(panel => panel.CreateTime).DefaultIfEmpty(DateTimeOffset.UnixEpoch).Max();
        await SheetAnswer.SendAsync(http, sheet, newest).ConfigureAwait(false);
    }

    // Of several findings of one panel the newest counts: each answer makes a new one.
    private async Task<IReadOnlyList<Finding>> OfReferenceAsync(string reference, CancellationToken cancellationToken)
    {
        var all = await store.ListOfReferenceAsync(reference, MostFindings, cancellationToken).ConfigureAwait(false);
        return [.. all.DistinctBy(one => one.Panel.Length > 0
            ? one.Panel
            : string.Join(',', one.Photos.Select(photo => photo.Sha256).Order()) is { Length: > 0 } photos ? photos : one.Name)];
    }

    private async Task<(string Name, IReadOnlyList<Finding> Panels, IReadOnlyList<OverviewEntry> Failed)> OfLaneAsync(HttpContext http)
    {
        var name = http.Request.Query["name"].ToString();
        var vehicle = await lanes.VehicleAsync(LanePages.Id(http), name, http.RequestAborted).ConfigureAwait(false)
            ?? throw new CoatScanException(
                ErrorReason.FindingNotFound,
                $"There is no vehicle '{name}' in this lane.",
                "name",
                new Dictionary<string, string> { ["name"] = name });
        var panels = new List<Finding>();
        foreach (var panel in vehicle.Panels.Where(one => one.Finding is not null))
        {
            panels.Add(await store.GetAsync(panel.Finding!, http.RequestAborted).ConfigureAwait(false));
        }

        var context = PageWriter.ContextOf(http);
        return (name, panels, [.. vehicle.Panels.Where(one => one.Error is not null)
            .Select(one => new OverviewEntry(one.Panel.Length > 0 ? one.Panel : name, null, context.Words.Refusal(one.Error!.Reason) ?? context.Sheets.Trade.Complain(one.Error.Message)))]);
    }

    private async Task<IReadOnlyList<FindingSubject>> WithAddressesAsync(IReadOnlyList<Finding> panels, CancellationToken cancellationToken)
    {
        var subjects = new List<FindingSubject>(panels.Count);
        foreach (var panel in panels)
        {
            subjects.Add(await findings.SubjectAsync(panel, cancellationToken).ConfigureAwait(false));
        }

        return subjects;
    }

    private static string Reference(HttpContext http) => http.Request.Query["reference"].ToString().Trim() is { Length: > 0 } reference
        ? reference
        : throw new CoatScanException(
            ErrorReason.FieldInvalid, "reference must not be empty.", "reference", new Dictionary<string, string> { ["value"] = "" });
}
