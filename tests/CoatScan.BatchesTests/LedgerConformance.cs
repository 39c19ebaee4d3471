using CoatScan.Batches;
using CoatScan.Findings;

namespace CoatScan.BatchesTests;

/// <summary>What every ledger has to do, whatever store it is kept in. A new store adds a class that opens one.</summary>
public abstract partial class LedgerConformance : IAsyncLifetime
{
    private static readonly TimeSpan Lease = TimeSpan.FromSeconds(8);
    private static readonly CancellationToken None = CancellationToken.None;

    private LedgerUnderTest _store = null!;

    private IBatchLedger Ledger => _store.Ledger;

    public async ValueTask InitializeAsync() => _store = await OpenAsync();

    public async ValueTask DisposeAsync()
    {
        // None when the test was skipped because its server is not installed.
        if (_store is not null)
        {
            await _store.DisposeAsync();
        }

        GC.SuppressFinalize(this);
    }

    protected abstract Task<LedgerUnderTest> OpenAsync();

    private async Task<Batch> RunningAsync(int items, string id = "lots")
    {
        await Ledger.CreateAsync(id, "", null, None);
        await Ledger.AddItemsAsync(id, Samples.Items(items), None);
        return await Ledger.StartAsync(id, null, None);
    }

    private async Task<ItemClaim> ClaimNextAsync(string worker = "worker-1") =>
        (await Ledger.ClaimAsync((await Ledger.ListReadyAsync(1, None))[0].Item, worker, Lease, None))!;

    private async Task<BatchItem> ItemAsync(string key, string batch = "lots") =>
        (await Ledger.ListItemsAsync(batch, [], 1000, "", None)).Rows.Single(item => item.Given.Key == key);

    private static async Task<ErrorReason> ReasonAsync(Func<Task> call) =>
        (await Assert.ThrowsAsync<CoatScanException>(call)).Reason;
}
