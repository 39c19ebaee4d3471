using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>The stored items.</summary>
internal static class ItemTable
{
    /// <summary>Adds items behind those already there, all or none.</summary>
    /// <returns>How many are new.</returns>
    /// <exception cref="CoatScanException">ITEM_EXISTS, or VALUE_OUT_OF_RANGE above the limit of a batch.</exception>
    public static async Task<int> AddAsync(
        FindingContext context, BatchRow batch, IReadOnlyList<NewItem> items, CancellationToken cancellationToken)
    {
        var keys = items.Select(item => item.Key).ToList();
        var known = await context.BatchItems.AsNoTracking()
            .Where(row => row.Batch == batch.Id && keys.Contains(row.ItemKey))
            .Select(row => new { row.ItemKey, row.Given })
            .ToDictionaryAsync(row => row.ItemKey, row => row.Given, cancellationToken);

        var added = 0;
        for (var index = 0; index < items.Count; index++)
        {
            var given = LedgerDocument.Write(items[index]);
            if (known.TryGetValue(items[index].Key, out var earlier))
            {
                if (earlier != given)
                {
                    throw Exists(batch.Id, items[index].Key, index);
                }

                continue;
            }

            known.Add(items[index].Key, given);
            context.BatchItems.Add(NewRow(batch, items[index], given, batch.ItemCount + added));
            added++;
        }

        return batch.ItemCount + added <= BatchLimits.MaxItems ? added : throw TooMany(batch.ItemCount + added);
    }

    public static Task<BatchItemRow?> FindAsync(
        FindingContext context, ItemRef item, CancellationToken cancellationToken) =>
        context.BatchItems.SingleOrDefaultAsync(
            row => row.Batch == item.Batch && row.ItemKey == item.Key, cancellationToken);

    public static BatchItem ToItem(BatchItemRow row) => new()
    {
        Given = LedgerDocument.Read<NewItem>(row.Given),
        Position = row.Position,
        State = row.State,
        AttemptCount = row.Attempt,
        Finding = row.FindingId is { } id ? FindingName.Of(id) : null,
        Error = row.Error is { } error ? LedgerDocument.Read<ItemError>(error) : null,
    };

    /// <summary>One page by position.</summary>
    public static async Task<BatchPage<BatchItem>> ReadPageAsync(
        FindingContext context,
        BatchRow batch,
        IReadOnlyCollection<ItemState> states,
        int size,
        PageToken? start,
        DateTimeOffset now,
        CancellationToken cancellationToken)
    {
        var from = start?.Place ?? 0;
        var rows = context.BatchItems.AsNoTracking()
            .Where(row => row.Batch == batch.Id && row.Position >= from);
        if (states.Count > 0)
        {
            rows = rows.Where(row => states.Contains(row.State));
        }

        var found = await rows.OrderBy(row => row.Position).Take(size + 1).ToListAsync(cancellationToken);
        var next = found.Count > size ? new PageToken(found[size].Position, batch.Id).Write(now) : "";
        return new BatchPage<BatchItem>([.. found.Take(size).Select(ToItem)], next);
    }

    private static BatchItemRow NewRow(BatchRow batch, NewItem item, string given, int position) => new()
    {
        Batch = batch.Id,
        ItemKey = item.Key,
        Position = position,
        VehicleRef = item.VehicleRef,
        Panel = item.Facts.Panel,
        Given = given,
        State = ItemState.Queued,
        Attempt = 0,
        LostCount = 0,
        DueTicks = 0,
        LeaseUntilTicks = null,
        Worker = "",
        Fence = 0,
        FindingId = null,
        Error = null,
        Summary = null,
        Severity = null,
    };

    private static CoatScanException Exists(string batch, string key, int index) => new(
        ErrorReason.ItemExists,
        $"The batch holds an item {key} of other content.",
        $"items[{index}].key",
        new Dictionary<string, string> { ["name"] = $"batches/{batch}/items/{key}" });

    private static CoatScanException TooMany(int count) => new(
        ErrorReason.ValueOutOfRange,
        $"The batch would hold {count} items; at most {BatchLimits.MaxItems} are allowed.",
        "items",
        new Dictionary<string, string> { ["value"] = $"{count}", ["limit"] = $"{BatchLimits.MaxItems}" });
}
