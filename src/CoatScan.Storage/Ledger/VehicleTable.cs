using System.Globalization;
using CoatScan.Batches;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>The items of a batch, vehicle by vehicle.</summary>
internal static class VehicleTable
{
    /// <summary>One page, worst first; equals in the order of adding.</summary>
    public static async Task<BatchPage<VehicleSummary>> ReadPageAsync(
        FindingContext context,
        BatchRow batch,
        int size,
        PageToken? start,
        DateTimeOffset now,
        CancellationToken cancellationToken)
    {
        var items = context.BatchItems.AsNoTracking().Where(row => row.Batch == batch.Id);
        var vehicles = items
            .GroupBy(row => row.VehicleRef)
            .Select(group => new
            {
                VehicleRef = group.Key,
                // 0 while nothing of the vehicle is at rest.
                Worst = group.Max(row => row.Severity == null ? 0 : row.Severity.Value + 1),
                First = group.Min(row => row.Position),
            });
        if (start is { } token)
        {
            var worst = token.Place;
            if (!int.TryParse(token.Id, NumberStyles.None, CultureInfo.InvariantCulture, out var first))
            {
                throw PageToken.Malformed();
            }

            vehicles = vehicles.Where(one => one.Worst < worst || (one.Worst == worst && one.First > first));
        }

        var found = await vehicles
            .OrderByDescending(one => one.Worst)
            .ThenBy(one => one.First)
            .Take(size + 1)
            .ToListAsync(cancellationToken);
        var page = found.Take(size).ToList();
        var refs = page.ConvertAll(one => one.VehicleRef);
        var rows = await items.Where(row => refs.Contains(row.VehicleRef)).OrderBy(row => row.Position)
            .ToListAsync(cancellationToken);
        var byRef = rows.ToLookup(row => row.VehicleRef);
        return new BatchPage<VehicleSummary>(
            refs.ConvertAll(one => Summarize(one, byRef[one])),
            found.Count > size
                ? new PageToken(page[^1].Worst, page[^1].First.ToString(CultureInfo.InvariantCulture)).Write(now)
                : "");
    }

    private static VehicleSummary Summarize(string vehicleRef, IEnumerable<BatchItemRow> items)
    {
        var all = items.ToList();
        var panels = all
            .Where(row => row.Severity is not null)
            // Items without a panel's name show panels of their own.
            .GroupBy(row => row.Panel.Length > 0 ? (row.Panel, "") : ("", row.ItemKey))
            .OrderByDescending(group => group.Max(row => row.Severity));
        return new VehicleSummary(
            vehicleRef,
            [.. panels.Select(group => ToPanel([.. group]))],
            all.Count(row => row.State is ItemState.Queued or ItemState.Running));
    }

    private static VehiclePanel ToPanel(IReadOnlyList<BatchItemRow> items)
    {
        var worst = items.MaxBy(row => row.Severity)!;
        var retakes = items
            .Where(row => row.Summary is not null)
            .SelectMany(row => LedgerDocument.Read<PanelSummary>(row.Summary!).Retakes)
            .Distinct();
        return new VehiclePanel(
            worst.Panel,
            worst.ItemKey,
            worst.FindingId is { } id ? FindingName.Of(id) : null,
            worst.Summary is { } summary ? LedgerDocument.Read<PanelSummary>(summary) : null,
            worst.Error is { } error ? LedgerDocument.Read<ItemError>(error) : null,
            [.. retakes]);
    }
}
