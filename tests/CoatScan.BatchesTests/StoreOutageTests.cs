using CoatScan.Batches;
using CoatScan.RealServers;

namespace CoatScan.BatchesTests;

/// <summary>A database that is away at the moment an outcome has to be stored.</summary>
public sealed class StoreOutageTests
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Outcome_waits_until_the_store_is_back()
    {
        await using var server = await SharedServers.OwnPostgresAsync();
        await using var store = await PostgresLedger.OpenAsync(server);
        await store.Ledger.CreateAsync("lots", "", null, None);
        await store.Ledger.AddItemsAsync("lots", Samples.Items(1), None);
        await store.Ledger.StartAsync("lots", null, None);
        var (begun, graded, refused) = (new TaskCompletionSource(), new TaskCompletionSource(), new TaskCompletionSource());
        var isGraded = false;
        await using var engine = new BatchEngine(
            store.Ledger,
            new FakeGrader(_ =>
            {
                begun.TrySetResult();
                return graded.Task;
            }),
            new ChannelHandOut(1, TimeProvider.System),
            store.Tenants,
            new BatchEngineSettings("engine", 1) { LookInterval = TimeSpan.FromMilliseconds(20) },
            TimeProvider.System,
            _ =>
            {
                if (Volatile.Read(ref isGraded))
                {
                    refused.TrySetResult();
                }
            });
        engine.Start();
        await begun.Task;

        await server.StopAsync();
        Volatile.Write(ref isGraded, true);
        graded.SetResult();
        await refused.Task;
        // The worker's own attempts come among those of the other loops; each of them ends within the connect timeout.
        await Task.Delay(500, TestContext.Current.CancellationToken);
        await server.StartAgainAsync();

        while (!(await store.Ledger.GetAsync("lots", None)).AtRest)
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        await engine.StopAsync();
        Assert.Equal(1, store.CountFindings());
    }
}
