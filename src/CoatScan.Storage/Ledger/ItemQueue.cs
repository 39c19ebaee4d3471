using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>Which items wait, who holds one, and how it comes back.</summary>
internal static class ItemQueue
{
    private const int MostAtOnce = 100;

    /// <summary>
    /// Items of all tenants that are due; one of each batch in turn, the batch that was served longest ago first.
    /// </summary>
    public static async Task<IReadOnlyList<ReadyItem>> ListReadyAsync(
        FindingContext context, int most, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var batches = await context.Batches.IgnoreQueryFilters().AsNoTracking()
            .Where(row => row.State == BatchState.Running)
            .OrderBy(row => row.LastClaimTicks)
            .Take(most)
            .Select(row => new { row.Tenant, row.Id })
            .ToListAsync(cancellationToken);
        var queues = new List<List<ReadyItem>>(batches.Count);
        foreach (var batch in batches)
        {
            context.Tenant = batch.Tenant;
            queues.Add(await ReadyOfAsync(context, batch.Id, most, now, cancellationToken));
        }

        var longest = queues.Select(queue => queue.Count).DefaultIfEmpty(0).Max();
        return
        [
            .. Enumerable.Range(0, longest)
                .SelectMany(turn => queues.Where(queue => turn < queue.Count).Select(queue => queue[turn]))
                .Take(most),
        ];
    }

    public static async Task<ItemClaim?> ClaimAsync(
        FindingContext context,
        ItemRef item,
        string worker,
        TimeSpan lease,
        DateTimeOffset now,
        CancellationToken cancellationToken)
    {
        var row = await ItemTable.FindAsync(context, item, cancellationToken);
        if (row is not { State: ItemState.Queued } || row.DueTicks > now.UtcTicks)
        {
            return null;
        }

        var served = await context.Batches
            .Where(batch => batch.Id == item.Batch && batch.State == BatchState.Running)
            .ExecuteUpdateAsync(
                batch => batch.SetProperty(one => one.LastClaimTicks, now.UtcTicks), cancellationToken);
        if (served == 0)
        {
            return null;
        }

        row.State = ItemState.Running;
        row.Attempt++;
        row.Fence++;
        row.Worker = worker;
        row.LeaseUntilTicks = (now + lease).UtcTicks;
        return new ItemClaim(item, LedgerDocument.Read<NewItem>(row.Given), row.Attempt, row.Fence);
    }

    public static async Task<int> RenewAsync(
        FindingContext context,
        IReadOnlyCollection<ItemClaim> held,
        TimeSpan lease,
        DateTimeOffset now,
        CancellationToken cancellationToken)
    {
        var until = (now + lease).UtcTicks;
        var count = 0;
        foreach (var claim in held)
        {
            context.Tenant = claim.Item.Tenant.Id;
            count += await context.BatchItems
                .Where(row => row.Batch == claim.Item.Batch && row.ItemKey == claim.Item.Key
                    && row.Fence == claim.Fence && row.LeaseUntilTicks != null)
                .ExecuteUpdateAsync(row => row.SetProperty(item => item.LeaseUntilTicks, until), cancellationToken);
        }

        return count;
    }

    /// <summary>What a worker process holds.</summary>
    public static Task<List<ItemRef>> ListHeldAsync(
        FindingContext context, string worker, CancellationToken cancellationToken) =>
        RefsAsync(
            context.BatchItems.IgnoreQueryFilters()
                .Where(row => row.LeaseUntilTicks != null && row.Worker == worker),
            cancellationToken);

    /// <summary>What workers hold that give no sign of life.</summary>
    public static Task<List<ItemRef>> ListLostAsync(
        FindingContext context, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var ticks = now.UtcTicks;
        return RefsAsync(
            context.BatchItems.IgnoreQueryFilters()
                .Where(row => row.LeaseUntilTicks < ticks)
                .OrderBy(row => row.LeaseUntilTicks)
                .Take(MostAtOnce),
            cancellationToken);
    }

    /// <summary>Puts an item back as if its worker had never taken it.</summary>
    public static async Task<int> GiveBackAsync(
        FindingContext context, ItemRef item, string worker, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var row = await ItemTable.FindAsync(context, item, cancellationToken);
        if (row is not { State: ItemState.Running } || row.Worker != worker)
        {
            return 0;
        }

        row.Attempt--;
        var batch = await BatchTable.GetAsync(context, item.Batch, cancellationToken);
        ItemOutcome.Requeue(context, batch, row, now.UtcTicks, now);
        return 1;
    }

    /// <summary>Fails an item that waits and was not claimed since it was handed out.</summary>
    public static async Task<bool> GiveUpAsync(
        FindingContext context, ReadyItem item, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var row = await ItemTable.FindAsync(context, item.Item, cancellationToken);
        if (row is not { State: ItemState.Queued } || row.Fence != item.Fence)
        {
            return false;
        }

        var batch = await BatchTable.GetAsync(context, item.Item.Batch, cancellationToken);
        ItemOutcome.Fail(context, batch, row, ItemError.GivenUp(), now);
        return true;
    }

    /// <summary>Takes an item back whose worker gives no sign of life, or is the one that is known to have ended.</summary>
    public static async Task<int> TakeBackAsync(
        FindingContext context, ItemRef item, string? ended, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var row = await ItemTable.FindAsync(context, item, cancellationToken);
        if (row is not { State: ItemState.Running, LeaseUntilTicks: { } until }
            || (until >= now.UtcTicks && row.Worker != ended))
        {
            return 0;
        }

        var batch = await BatchTable.GetAsync(context, item.Batch, cancellationToken);
        row.LostCount++;
        if (row.Attempt >= AttemptRules.MaxAttempts)
        {
            ItemOutcome.Fail(context, batch, row, ItemError.WorkerLost(row.Attempt), now);
            return 1;
        }

        ItemOutcome.Requeue(context, batch, row, now.UtcTicks, now);
        return 1;
    }

    private static Task<List<ReadyItem>> ReadyOfAsync(
        FindingContext context, string batch, int most, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var ticks = now.UtcTicks;
        return context.BatchItems.AsNoTracking()
            .Where(row => row.Batch == batch && row.State == ItemState.Queued && row.DueTicks <= ticks)
            .OrderBy(row => row.LostCount)
            .ThenBy(row => row.Position)
            .Take(most)
            .Select(row => new ReadyItem(
                new ItemRef(new Tenant(row.Tenant), row.Batch, row.ItemKey), row.LostCount > 0, row.Fence))
            .ToListAsync(cancellationToken);
    }

    private static async Task<List<ItemRef>> RefsAsync(
        IQueryable<BatchItemRow> rows, CancellationToken cancellationToken) =>
        await rows
            .Select(row => new ItemRef(new Tenant(row.Tenant), row.Batch, row.ItemKey))
            .ToListAsync(cancellationToken);
}
