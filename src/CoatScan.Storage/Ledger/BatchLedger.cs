using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Photos;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>Keeps batches in the tables beside the findings; see <see cref="IBatchLedger"/>.</summary>
/// <remarks>
/// Every method that changes something is one transaction, synced before its task ends. The row of the batch carries a
/// version, that of an item its fence, and the table of findings a unique key per item: a second writer that read what
/// has changed since cannot commit.
/// </remarks>
public sealed class BatchLedger : IBatchLedger
{
    private const int DefaultPageSize = 50;
    private const int MaximumPageSize = 500;
    private const int DefaultItemPageSize = 100;
    private const int MaximumItemPageSize = 1_000;
    private const string NamePrefix = "batches/";

    private readonly FindingDatabase _database;
    private readonly TimeProvider _time;
    private readonly WorkerFiles? _workers;

    /// <summary>Opens nothing yet.</summary>
    /// <param name="database">The database that all stores share; migrated before the first call.</param>
    /// <param name="time">Clock of the ledger.</param>
    public BatchLedger(FindingDatabase database, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(database);
        _database = database;
        _time = time;
        _workers = database.Engine.WorkerFolder is { } folder ? new WorkerFiles(folder) : null;
    }

    /// <inheritdoc/>
    public Task<Batch> CreateAsync(
        string? id, string displayName, RequestKey? request, CancellationToken cancellationToken) =>
        _database.WriteAsync(
            async (context, token) =>
            {
                var now = _time.GetUtcNow();
                var own = id ?? $"b-{Guid.CreateVersion7(now):D}";
                if (request is not null
                    && !await RequestKeyTable.ClaimAsync(context, request, NamePrefix + own, now, token))
                {
                    var first = await RequestKeyTable.FindAsync(context, request, now, token);
                    return BatchTable.ToBatch(
                        await BatchTable.GetAsync(context, first![NamePrefix.Length..], token));
                }

                if (await BatchTable.ExistsAsync(context, own, token))
                {
                    throw Exists(own);
                }

                var row = BatchTable.NewRow(own, displayName, now);
                context.Batches.Add(row);
                await AuditChain.AppendAsync(
                    context, now, AuditChain.Create, [NamePrefix + own], AuditChain.Done, token);
                await context.SaveChangesAsync(token);
                return BatchTable.ToBatch(row);
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<Batch> AddItemsAsync(
        string batch, IReadOnlyList<NewItem> items, CancellationToken cancellationToken) =>
        ChangeAsync(
            batch,
            async (context, row, token) =>
            {
                BatchControl.CheckOpen(row);
                var added = await ItemTable.AddAsync(context, row, items, token);
                row.ItemCount += added;
                row.Version += added > 0 ? 1 : 0;
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<Batch> StartAsync(
        string batch, long? expectedVersion, CancellationToken cancellationToken) =>
        ChangeAsync(
            batch,
            (context, row, _) =>
            {
                BatchControl.CheckVersion(row, expectedVersion);
                BatchControl.Start(context, row, _time.GetUtcNow());
                return Task.CompletedTask;
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<Batch> CancelAsync(
        string batch, long? expectedVersion, CancellationToken cancellationToken) =>
        ChangeAsync(
            batch,
            (context, row, token) =>
            {
                BatchControl.CheckVersion(row, expectedVersion);
                return BatchControl.CancelAsync(context, row, _time.GetUtcNow(), token);
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<Batch> RetryAsync(
        string batch, long? expectedVersion, CancellationToken cancellationToken) =>
        ChangeAsync(
            batch,
            (context, row, token) =>
            {
                BatchControl.CheckVersion(row, expectedVersion);
                return BatchControl.RetryAsync(context, row, token);
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<Batch> GetAsync(string batch, CancellationToken cancellationToken) =>
        ReadAsync(batch, (_, row, _) => Task.FromResult(BatchTable.ToBatch(row)), cancellationToken);

    /// <inheritdoc/>
    public Task<BatchPage<Batch>> ListAsync(
        int pageSize, string pageToken, CancellationToken cancellationToken)
    {
        var size = PageSize.Of(pageSize, DefaultPageSize, MaximumPageSize);
        var now = _time.GetUtcNow();
        var start = Start(pageToken, now);
        return _database.ReadAsync(
            (context, token) => BatchTable.ReadPageAsync(context, size, start, now, token), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<BatchPage<BatchItem>> ListItemsAsync(
        string batch,
        IReadOnlyCollection<ItemState> states,
        int pageSize,
        string pageToken,
        CancellationToken cancellationToken)
    {
        var size = PageSize.Of(pageSize, DefaultItemPageSize, MaximumItemPageSize);
        var now = _time.GetUtcNow();
        var start = Start(pageToken, now);
        return ReadAsync(
            batch,
            (context, row, token) => ItemTable.ReadPageAsync(context, row, states, size, start, now, token),
            cancellationToken);
    }

    /// <inheritdoc/>
    public Task<BatchPage<VehicleSummary>> ListVehiclesAsync(
        string batch, int pageSize, string pageToken, CancellationToken cancellationToken)
    {
        var size = PageSize.Of(pageSize, DefaultPageSize, MaximumPageSize);
        var now = _time.GetUtcNow();
        var start = Start(pageToken, now);
        return ReadAsync(
            batch,
            (context, row, token) => VehicleTable.ReadPageAsync(context, row, size, start, now, token),
            cancellationToken);
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<BatchEvent>> ListEventsAsync(
        string batch, long startSequence, int most, CancellationToken cancellationToken) =>
        ReadAsync(
            batch,
            (context, row, token) => EventTable.ReadAsync(context, row, startSequence, most, token),
            cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<ReadyItem>> ListReadyAsync(int most, CancellationToken cancellationToken) =>
        _database.ReadAsync(
            (context, token) => ItemQueue.ListReadyAsync(context, most, _time.GetUtcNow(), token), cancellationToken);

    /// <inheritdoc/>
    public Task<ItemClaim?> ClaimAsync(
        ItemRef item, string worker, TimeSpan lease, CancellationToken cancellationToken) =>
        SaveAsync(
            item,
            (context, token) => ItemQueue.ClaimAsync(context, item, worker, lease, _time.GetUtcNow(), token),
            cancellationToken);

    /// <inheritdoc/>
    public IDisposable SignOn(string worker) => _workers?.SignOn(worker) ?? new NothingToDispose();

    /// <inheritdoc/>
    public Task RenewAsync(IReadOnlyCollection<ItemClaim> held, TimeSpan lease, CancellationToken cancellationToken) =>
        _database.WriteAsync(
            (context, token) => ItemQueue.RenewAsync(context, held, lease, _time.GetUtcNow(), token),
            cancellationToken);

    /// <inheritdoc/>
    public Task<bool> FinishAsync(ItemClaim claim, GradedItem graded, CancellationToken cancellationToken) =>
        EndAsync(
            claim,
            async (context, batch, item, now, token) =>
            {
                var noted = await PictureIndex.NoteEarlierAsync(context, graded.Finding, graded.Look, token);
                ItemOutcome.Grade(context, batch, item, graded with { Finding = noted }, now);
                await AuditChain.AppendAsync(
                    context, now, AuditChain.Create, [graded.Finding.Name], AuditChain.Done, token);
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<bool> FailAsync(ItemClaim claim, ItemError fault, CancellationToken cancellationToken) =>
        EndAsync(
            claim,
            (context, batch, item, now, _) =>
            {
                if (item.Attempt < AttemptRules.MaxAttempts && AttemptRules.WorthAnotherAttempt(fault.Reason))
                {
                    item.Error = LedgerDocument.Write(fault);
                    var due = now + AttemptRules.DelayAfter(item.Attempt);
                    ItemOutcome.Requeue(context, batch, item, due.UtcTicks, now);
                }
                else
                {
                    ItemOutcome.Fail(context, batch, item, fault, now);
                }

                return Task.CompletedTask;
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<bool> GiveUpAsync(ReadyItem item, CancellationToken cancellationToken) =>
        SaveAsync(
            item.Item,
            (context, token) => ItemQueue.GiveUpAsync(context, item, _time.GetUtcNow(), token),
            cancellationToken);

    /// <inheritdoc/>
    public Task<IReadOnlyList<Announcement>> ListToAnnounceAsync(int most, CancellationToken cancellationToken) =>
        _database.ReadAsync(
            (context, token) => EventTable.ListToAnnounceAsync(context, most, token), cancellationToken);

    /// <inheritdoc/>
    public Task AnnouncedAsync(Tenant tenant, string batch, long sequence, CancellationToken cancellationToken) =>
        _database.WriteAsync(
            (context, token) =>
            {
                context.Tenant = tenant.Id;
                return context.Batches
                    .Where(row => row.Id == batch && row.AnnouncedSequence < sequence)
                    .ExecuteUpdateAsync(row => row.SetProperty(one => one.AnnouncedSequence, sequence), token);
            },
            cancellationToken);

    /// <inheritdoc/>
    public async Task<int> GiveBackAsync(string worker, CancellationToken cancellationToken)
    {
        var count = 0;
        foreach (var item in await ListHeldAsync(worker, cancellationToken))
        {
            count += await SaveAsync(
                item,
                (context, token) => ItemQueue.GiveBackAsync(context, item, worker, _time.GetUtcNow(), token),
                cancellationToken);
        }

        return count;
    }

    /// <inheritdoc/>
    public async Task<int> SweepAsync(CancellationToken cancellationToken)
    {
        var count = 0;
        foreach (var worker in _workers?.ListEnded() ?? [])
        {
            count += await TakeBackAsync(await ListHeldAsync(worker, cancellationToken), worker, cancellationToken);
            _workers?.Forget(worker);
        }

        // The look takes no lock; nearly always it is all there is to do.
        var lost = await _database.ReadAsync(
            (context, token) => ItemQueue.ListLostAsync(context, _time.GetUtcNow(), token), cancellationToken);
        return count + await TakeBackAsync(lost, null, cancellationToken);
    }

    private Task<List<ItemRef>> ListHeldAsync(string worker, CancellationToken cancellationToken) =>
        _database.ReadAsync((context, token) => ItemQueue.ListHeldAsync(context, worker, token), cancellationToken);

    private async Task<int> TakeBackAsync(
        IEnumerable<ItemRef> items, string? ended, CancellationToken cancellationToken)
    {
        var count = 0;
        foreach (var item in items)
        {
            count += await SaveAsync(
                item,
                (context, token) => ItemQueue.TakeBackAsync(context, item, ended, _time.GetUtcNow(), token),
                cancellationToken);
        }

        return count;
    }

    private Task<bool> EndAsync(
        ItemClaim claim,
        Func<FindingContext, BatchRow, BatchItemRow, DateTimeOffset, CancellationToken, Task> end,
        CancellationToken cancellationToken) =>
        SaveAsync(
            claim.Item,
            async (context, token) =>
            {
                var item = await ItemTable.FindAsync(context, claim.Item, token);
                if (item is not { State: ItemState.Running } || item.Fence != claim.Fence)
                {
                    return false;
                }

                var batch = await BatchTable.GetAsync(context, item.Batch, token);
                await end(context, batch, item, _time.GetUtcNow(), token);
                return true;
            },
            cancellationToken);

    private Task<Batch> ChangeAsync(
        string batch,
        Func<FindingContext, BatchRow, CancellationToken, Task> change,
        CancellationToken cancellationToken) =>
        SaveAsync(
            async (context, token) =>
            {
                var row = await BatchTable.GetAsync(context, batch, token);
                await change(context, row, token);
                return BatchTable.ToBatch(row);
            },
            cancellationToken);

    private Task<T> ReadAsync<T>(
        string batch,
        Func<FindingContext, BatchRow, CancellationToken, Task<T>> read,
        CancellationToken cancellationToken) =>
        _database.ReadAsync(
            async (context, token) =>
                await read(context, await BatchTable.GetAsync(context, batch, token), token),
            cancellationToken);

    private Task<T> SaveAsync<T>(
        Func<FindingContext, CancellationToken, Task<T>> write, CancellationToken cancellationToken) =>
        _database.WriteAsync(
            async (context, token) =>
            {
                var result = await write(context, token);
                await context.SaveChangesAsync(token);
                return result;
            },
            cancellationToken);

    // Work in the background is no call of the tenant's: the item says whose it is.
    private Task<T> SaveAsync<T>(
        ItemRef item, Func<FindingContext, CancellationToken, Task<T>> write, CancellationToken cancellationToken) =>
        SaveAsync(
            (context, token) =>
            {
                context.Tenant = item.Tenant.Id;
                return write(context, token);
            },
            cancellationToken);

    private static PageToken? Start(string pageToken, DateTimeOffset now) =>
        pageToken.Length == 0 ? null : PageToken.Read(pageToken, now);

    private static CoatScanException Exists(string id) => new(
        ErrorReason.BatchExists,
        $"There is a batch batches/{id} already.",
        "batch_id",
        new Dictionary<string, string> { ["name"] = NamePrefix + id });

    private sealed class NothingToDispose : IDisposable
    {
        public void Dispose()
        {
            // Nobody on another machine could see what it did.
        }
    }
}
