using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>The stored events: written with what they tell of, read by watchers.</summary>
internal static class EventTable
{
    /// <summary>Adds the next event; the batch row changes with it, so that no two take one number.</summary>
    public static void Append(FindingContext context, BatchRow batch, BatchItemRow? item = null)
    {
        batch.LastSequence++;
        batch.Version++;
        context.BatchEvents.Add(new BatchEventRow
        {
            Batch = batch.Id,
            Sequence = batch.LastSequence,
            BatchState = batch.State,
            GradedCount = batch.GradedCount,
            FailedCount = batch.FailedCount,
            CancelledCount = batch.CancelledCount,
            FinishTimeTicks = batch.FinishTimeTicks,
            Version = batch.Version,
            ItemKey = item?.ItemKey,
            ItemState = item?.State,
            Attempt = item?.Attempt,
            FindingId = item?.FindingId,
            Error = item?.Error,
        });
    }

    public static async Task<IReadOnlyList<BatchEvent>> ReadAsync(
        FindingContext context, BatchRow batch, long startSequence, int most, CancellationToken cancellationToken)
    {
        var rows = await context.BatchEvents.AsNoTracking()
            .Where(row => row.Batch == batch.Id && row.Sequence >= startSequence)
            .OrderBy(row => row.Sequence)
            .Take(most)
            .ToListAsync(cancellationToken);
        var keys = rows.Select(row => row.ItemKey).OfType<string>().Distinct().ToList();
        var items = await context.BatchItems.AsNoTracking()
            .Where(row => row.Batch == batch.Id && keys.Contains(row.ItemKey))
            .ToDictionaryAsync(row => row.ItemKey, ItemTable.ToItem, cancellationToken);
        var now = BatchTable.ToBatch(batch);
        return rows.ConvertAll(row => ToEvent(row, now, items));
    }

    /// <summary>Events of all tenants that were not announced yet; those of a batch in order, batches with the fewest events first.</summary>
    public static async Task<IReadOnlyList<Announcement>> ListToAnnounceAsync(
        FindingContext context, int most, CancellationToken cancellationToken)
    {
        var batches = await context.Batches.IgnoreQueryFilters().AsNoTracking()
            .Where(row => row.AnnouncedSequence < row.LastSequence)
            .OrderBy(row => row.LastSequence)
            .Take(most)
            .ToListAsync(cancellationToken);
        var announcements = new List<Announcement>();
        foreach (var batch in batches)
        {
            if (announcements.Count >= most)
            {
                break;
            }

            context.Tenant = batch.Tenant;
            var events = await ReadAsync(
                context, batch, batch.AnnouncedSequence + 1, most - announcements.Count, cancellationToken);
            announcements.AddRange(events.Select(one => new Announcement(new Tenant(batch.Tenant), one)));
        }

        return announcements;
    }

    private static BatchEvent ToEvent(BatchEventRow row, Batch now, Dictionary<string, BatchItem> items) => new(
        row.Sequence,
        now with
        {
            State = row.BatchState,
            GradedCount = row.GradedCount,
            FailedCount = row.FailedCount,
            CancelledCount = row.CancelledCount,
            FinishTime = row.FinishTimeTicks is { } ticks ? BatchTable.ToTime(ticks) : null,
            LastSequence = row.Sequence,
            Version = row.Version,
        },
        row.ItemKey is null
            ? null
            : items[row.ItemKey] with
            {
                State = row.ItemState!.Value,
                AttemptCount = row.Attempt!.Value,
                Finding = row.FindingId is { } id ? FindingName.Of(id) : null,
                Error = row.Error is { } error ? LedgerDocument.Read<ItemError>(error) : null,
            });
}
