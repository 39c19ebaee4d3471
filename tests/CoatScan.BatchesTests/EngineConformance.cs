using System.Collections.Concurrent;
using CoatScan.Batches;
using CoatScan.Findings;

namespace CoatScan.BatchesTests;

/// <summary>What the engine has to do on every store and with every hand-out, with a fake in place of the grading.</summary>
public abstract class EngineConformance : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly ConcurrentQueue<Exception> _reports = new();
    private LedgerUnderTest _store = null!;
    private HandOutUnderTest _handOut = null!;

    private IBatchLedger Ledger => _store.Ledger;

    public async ValueTask InitializeAsync()
    {
        _handOut = await OpenHandOutAsync();
        _store = await OpenStoreAsync();
    }

    public async ValueTask DisposeAsync()
    {
        // None when the test was skipped because a server is not installed.
        if (_handOut is not null)
        {
            await _handOut.DisposeAsync();
        }

        if (_store is not null)
        {
            await _store.DisposeAsync();
        }

        GC.SuppressFinalize(this);
    }

    /// <summary>Items of a large batch; fewer where each takes longer.</summary>
    protected virtual int LargeBatch => 1_000;

    protected abstract Task<LedgerUnderTest> OpenStoreAsync();

    protected abstract Task<HandOutUnderTest> OpenHandOutAsync();

    [Fact]
    public async Task Every_item_gets_one_finding_and_faults_end_no_worker()
    {
        await RunningAsync(60);
        await using var engine = Engine(workers: 3, new FakeGrader(item => item.Key switch
        {
            "item-7" => throw new CoatScanException(ErrorReason.PhotoTruncated, "The photo is cut."),
            _ => Task.CompletedTask,
        }));

        engine.Start();
        var rest = await RestAsync();
        await engine.StopAsync();

        Assert.Equal((59, 1), (rest.GradedCount, rest.FailedCount));
        Assert.Equal(59, _store.CountFindings());
        Assert.Empty(_reports);
    }

    [Fact]
    public async Task Fault_of_ours_is_reported_and_tried_three_times()
    {
        await RunningAsync(1);
        var grader = new FakeGrader(_ => throw new InvalidOperationException("broken"));
        await using var engine = Engine(workers: 1, grader);

        engine.Start();
        for (var attempt = 1; attempt < AttemptRules.MaxAttempts; attempt++)
        {
            await UntilAsync(async () => (await ItemAsync()) is { State: ItemState.Queued } item && item.AttemptCount == attempt);
            _store.Clock.Advance(TimeSpan.FromSeconds(30));
        }

        await RestAsync();
        await engine.StopAsync();

        Assert.Equal((ItemState.Failed, 3), ((await ItemAsync()).State, grader.Count));
        Assert.Equal(3, _reports.Count(fault => fault is InvalidOperationException));
    }

    [Fact]
    public async Task Claim_whose_answer_is_lost_comes_free_while_its_process_lives_on()
    {
        await RunningAsync(2);
        var (ledger, lost) = LostAnswer.Of(Ledger, nameof(IBatchLedger.ClaimAsync));
        var release = new TaskCompletionSource();
        var grader = new FakeGrader(_ => release.Task);
        var lease = TimeSpan.FromMilliseconds(400);
        await using var engine = Engine(workers: 2, grader, ledger, lease: lease);
        engine.Start();
        // One is claimed and nobody works on it; the other keeps the process renewing.
        await UntilAsync(async () =>
            grader.Count == 1 && (await Ledger.ListItemsAsync("lots", [ItemState.Running], 0, "", None)).Rows.Count == 2);

        for (var step = 0; step < 4; step++)
        {
            _store.Clock.Advance(lease / 2);
            await lost.AnotherAsync(nameof(IBatchLedger.RenewAsync));
        }

        await lost.AnotherAsync(nameof(IBatchLedger.SweepAsync));
        await lost.AnotherAsync(nameof(IBatchLedger.SweepAsync));
        var free = (await Ledger.ListItemsAsync("lots", [ItemState.Queued], 0, "", None)).Rows;
        release.SetResult();
        Assert.Single(free);
        Assert.Equal(2, (await RestAsync()).GradedCount);
        await engine.StopAsync();
        Assert.Equal(2, _store.CountFindings());
    }

    [Fact]
    public async Task Stop_gives_back_what_is_in_progress()
    {
        await RunningAsync(3);
        var grader = new FakeGrader(_ => Task.Delay(Timeout.Infinite, None)) { WaitsForStop = true };
        await using var engine = Engine(workers: 2, grader);

        engine.Start();
        await UntilAsync(() => Task.FromResult(grader.Count == 2));
        await engine.StopAsync();

        var items = (await Ledger.ListItemsAsync("lots", [], 0, "", None)).Rows;
        Assert.All(items, item => Assert.Equal((ItemState.Queued, 0), (item.State, item.AttemptCount)));
    }

    [Fact]
    public async Task Suspect_runs_alone()
    {
        await RunningAsync(12);
        var lost = (await Ledger.ListReadyAsync(1, None))[0].Item;
        await Ledger.ClaimAsync(lost, "dead", TimeSpan.FromSeconds(8), None);
        _store.Clock.Advance(TimeSpan.FromMinutes(1));
        await Ledger.SweepAsync(None);
        var running = 0;
        var besideSuspect = -1;
        var grader = new FakeGrader(async item =>
        {
            var now = Interlocked.Increment(ref running);
            if (item.Key == lost.Key)
            {
                besideSuspect = now - 1;
            }

            await Task.Delay(20, None);
            if (item.Key == lost.Key)
            {
                besideSuspect = Math.Max(besideSuspect, Volatile.Read(ref running) - 1);
            }

            Interlocked.Decrement(ref running);
        });
        await using var engine = Engine(workers: 4, grader);

        engine.Start();
        var rest = await RestAsync();
        await engine.StopAsync();

        Assert.Equal(12, rest.GradedCount);
        Assert.Equal(0, besideSuspect);
    }

    [Fact]
    public async Task Memory_does_not_grow_with_the_batch()
    {
        var count = LargeBatch;
        await Ledger.CreateAsync("lots", "", null, None);
        for (var from = 0; from < count; from += 1_000)
        {
            await Ledger.AddItemsAsync("lots", Samples.Items(1_000, from), None);
        }

        await Ledger.StartAsync("lots", null, None);
        var grader = new FakeGrader(_ => Task.CompletedTask);
        await using var engine = Engine(workers: 2, grader);

        engine.Start();
        await UntilAsync(() => Task.FromResult(grader.Count > count / 10));
        var early = GC.GetTotalMemory(forceFullCollection: true);
        await UntilAsync(() => Task.FromResult(grader.Count > count * 9 / 10));
        var late = GC.GetTotalMemory(forceFullCollection: true);
        var rest = await RestAsync();
        await engine.StopAsync();

        TestContext.Current.TestOutputHelper!.WriteLine($"{early / 1024} KiB early, {late / 1024} KiB late");
        Assert.Equal(count, rest.GradedCount);
        Assert.InRange(late, 0, early + (4 * 1024 * 1024));
    }

    [Fact]
    public async Task Item_of_another_tenant_is_graded_as_that_tenant()
    {
        using (_store.Tenants.Enter(new Tenant("other")))
        {
            await RunningAsync(1);
        }

        Tenant seen = default;
        await using var engine = Engine(workers: 1, new FakeGrader(_ =>
        {
            seen = _store.Tenants.Current;
            return Task.CompletedTask;
        }));
        engine.Start();
        using (_store.Tenants.Enter(new Tenant("other")))
        {
            await RestAsync();
        }

        await engine.StopAsync();
        Assert.Equal("other", seen.Id);
    }

    [Fact]
    public async Task Two_processes_share_a_batch_and_every_item_gets_one_finding()
    {
        const int count = 80;
        await RunningAsync(count);
        var other = await _store.OpenAnotherAsync();
        // Held at its first item until the other one has begun too, so that both take part.
        var both = new TaskCompletionSource();
        var begun = 0;
        FakeGrader Grader() => new(_ =>
        {
            if (Interlocked.Increment(ref begun) == 2)
            {
                both.TrySetResult();
            }

            return both.Task;
        });
        var (first, second) = (Grader(), Grader());
        await using var engine = Engine(workers: 1, first);
        await using var another = Engine(workers: 1, second, other, "another");

        engine.Start();
        another.Start();
        var rest = await RestAsync();
        await engine.StopAsync();
        await another.StopAsync();

        Assert.Equal((count, 0), (rest.GradedCount, rest.FailedCount));
        Assert.Equal(count, _store.CountFindings());
        Assert.True(first.Count > 0 && second.Count > 0, $"{first.Count} and {second.Count} items");
        Assert.Empty(_reports);
    }

    [Fact]
    public async Task Batch_of_a_process_that_is_gone_is_finished_by_the_one_that_is_left()
    {
        await RunningAsync(6);
        var grader = new FakeGrader(_ => Task.CompletedTask) { WaitsForStop = true };
        // Ended without giving back what it holds: as a kill does, all that is left of it are its leases.
        await using (var gone = Engine(workers: 2, grader, worker: "gone"))
        {
            gone.Start();
            await UntilAsync(() => Task.FromResult(grader.Count == 2));
        }

        await using var engine = Engine(workers: 2, new FakeGrader(_ => Task.CompletedTask));
        engine.Start();
        await UntilAsync(async () => (await Ledger.GetAsync("lots", None)).GradedCount == 4);
        _store.Clock.Advance(TimeSpan.FromMinutes(1));
        var rest = await RestAsync();
        await engine.StopAsync();

        Assert.Equal((6, 0), (rest.GradedCount, rest.FailedCount));
        Assert.Equal(6, _store.CountFindings());
    }

    [Fact]
    public async Task Short_batch_does_not_wait_for_a_long_one()
    {
        await RunningAsync(200);
        await Ledger.CreateAsync("short", "", null, None);
        await Ledger.AddItemsAsync("short", Samples.Items(3), None);
        await Ledger.StartAsync("short", null, None);
        await using var engine = Engine(workers: 1, new FakeGrader(_ =>
        {
            // Turns are told apart by the ledger's clock.
            _store.Clock.Advance(TimeSpan.FromMilliseconds(1));
            return Task.CompletedTask;
        }));

        engine.Start();
        await UntilAsync(async () => (await Ledger.GetAsync("short", None)).AtRest);
        var other = await Ledger.GetAsync("lots", None);
        await engine.StopAsync();

        // Turn about, but for the window that was handed out before.
        Assert.InRange(other.GradedCount, 0, 40);
    }

    private BatchEngine Engine(
        int workers, FakeGrader grader, IBatchLedger? ledger = null, string worker = "engine", TimeSpan? lease = null) => new(
        ledger ?? Ledger,
        grader,
        _handOut.Open(workers),
        _store.Tenants,
        new BatchEngineSettings(worker, workers) { LookInterval = TimeSpan.FromMilliseconds(20), Lease = lease ?? TimeSpan.FromSeconds(8) },
        TimeProvider.System,
        _reports.Enqueue);

    private async Task RunningAsync(int items)
    {
        await Ledger.CreateAsync("lots", "", null, None);
        await Ledger.AddItemsAsync("lots", Samples.Items(items), None);
        await Ledger.StartAsync("lots", null, None);
    }

    private async Task<BatchItem> ItemAsync() => (await Ledger.ListItemsAsync("lots", [], 0, "", None)).Rows[0];

    private async Task<Batch> RestAsync()
    {
        await UntilAsync(async () => (await Ledger.GetAsync("lots", None)).AtRest);
        return await Ledger.GetAsync("lots", None);
    }

    private static async Task UntilAsync(Func<Task<bool>> holds)
    {
        while (!await holds())
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }
}
