using CoatScan.Batches;
using CoatScan.Findings;

namespace CoatScan.BatchesTests;

/// <content>Claim, finish, fail, lose.</content>
public abstract partial class LedgerConformance
{
    [Fact]
    public async Task Claim_counts_attempt_and_fence_before_any_work_and_is_given_once()
    {
        await RunningAsync(1);
        var item = (await Ledger.ListReadyAsync(5, None)).Single().Item;

        var claim = await Ledger.ClaimAsync(item, "worker-1", Lease, None);
        var second = await Ledger.ClaimAsync(item, "worker-2", Lease, None);

        Assert.Equal((1, 1L), (claim!.Attempt, claim.Fence));
        Assert.Null(second);
        Assert.Equal((ItemState.Running, 1), ((await ItemAsync("item-0")).State, (await ItemAsync("item-0")).AttemptCount));
        Assert.Empty(await Ledger.ListReadyAsync(5, None));
    }

    [Fact]
    public async Task Finish_stores_finding_event_and_state_together_and_the_last_item_ends_the_batch()
    {
        await RunningAsync(2);

        Assert.True(await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("f-0"), None));
        var half = await Ledger.GetAsync("lots", None);
        Assert.True(await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("f-1"), None));
        var whole = await Ledger.GetAsync("lots", None);

        Assert.Equal((BatchState.Running, 1, false), (half.State, half.GradedCount, half.AtRest));
        Assert.Equal((BatchState.Succeeded, 2, true), (whole.State, whole.GradedCount, whole.AtRest));
        Assert.Equal("findings/f-1", (await ItemAsync("item-1")).Finding);
        Assert.Equal(2, _store.CountFindings());
    }

    [Fact]
    public async Task Finish_of_a_paused_worker_changes_nothing_once_its_lease_ran_out()
    {
        await RunningAsync(1);
        var paused = await ClaimNextAsync("paused");

        _store.Clock.Advance(Lease + TimeSpan.FromSeconds(1));
        Assert.Equal(1, await Ledger.SweepAsync(None));
        Assert.False(await Ledger.FinishAsync(paused, Samples.Graded("f-early"), None));
        var successor = await ClaimNextAsync("successor");
        Assert.False(await Ledger.FinishAsync(paused, Samples.Graded("f-late"), None));
        Assert.False(await Ledger.FailAsync(paused, ItemError.Internal(), None));
        Assert.True(await Ledger.FinishAsync(successor, Samples.Graded("f-successor"), None));
        Assert.False(await Ledger.FinishAsync(paused, Samples.Graded("f-latest"), None));

        Assert.Equal("findings/f-successor", (await ItemAsync("item-0")).Finding);
        Assert.Equal(1, _store.CountFindings());
    }

    [Fact]
    public async Task Claim_and_finish_from_two_processes_give_one_finding_an_item()
    {
        const int count = 40;
        await RunningAsync(count);
        var other = await _store.OpenAnotherAsync();

        async Task WorkAsync(IBatchLedger ledger, string worker)
        {
            while ((await ledger.ListReadyAsync(4, None)) is [_, ..] ready)
            {
                foreach (var one in ready)
                {
                    if (await ledger.ClaimAsync(one.Item, worker, Lease, None) is { } claim)
                    {
                        await ledger.FinishAsync(claim, Samples.Graded($"{worker}-{claim.Given.Key}"), None);
                    }
                }
            }
        }

        await Task.WhenAll(
            Task.Run(() => WorkAsync(Ledger, "a")),
            Task.Run(() => WorkAsync(Ledger, "b")),
            Task.Run(() => WorkAsync(other, "c")));

        var batch = await Ledger.GetAsync("lots", None);
        Assert.Equal((BatchState.Succeeded, count), (batch.State, batch.GradedCount));
        Assert.Equal(count, _store.CountFindings());
        var events = await Ledger.ListEventsAsync("lots", 1, 1000, None);
        Assert.Equal(Enumerable.Range(1, count + 1).Select(i => (long)i), events.Select(one => one.Sequence));
    }

    [Fact]
    public async Task Fail_by_the_callers_fault_is_final_at_once()
    {
        await RunningAsync(1);
        var refusal = new CoatScanException(ErrorReason.PhotoTruncated, "The photo is cut.", "photos[0]");

        Assert.True(await Ledger.FailAsync(await ClaimNextAsync(), ItemError.Of(refusal), None));

        var item = await ItemAsync("item-0");
        Assert.Equal((ItemState.Failed, 1), (item.State, item.AttemptCount));
        Assert.Equal((ErrorReason.PhotoTruncated, "photos[0]"), (item.Error!.Reason, item.Error.Field));
        Assert.Equal(BatchState.Succeeded, (await Ledger.GetAsync("lots", None)).State);
    }

    [Fact]
    public async Task Fail_by_our_fault_is_tried_again_after_5_and_30_seconds_and_then_final()
    {
        await RunningAsync(1);

        await Ledger.FailAsync(await ClaimNextAsync(), ItemError.Internal(), None);
        _store.Clock.Advance(TimeSpan.FromSeconds(4.9));
        Assert.Empty(await Ledger.ListReadyAsync(1, None));
        _store.Clock.Advance(TimeSpan.FromSeconds(0.1));
        await Ledger.FailAsync(await ClaimNextAsync(), ItemError.Internal(), None);
        _store.Clock.Advance(TimeSpan.FromSeconds(29.9));
        Assert.Empty(await Ledger.ListReadyAsync(1, None));
        _store.Clock.Advance(TimeSpan.FromSeconds(0.1));
        await Ledger.FailAsync(await ClaimNextAsync(), ItemError.Internal(), None);

        var item = await ItemAsync("item-0");
        Assert.Equal((ItemState.Failed, 3, ErrorReason.InternalError), (item.State, item.AttemptCount, item.Error!.Reason));
    }

    [Fact]
    public async Task Renew_keeps_a_claim_alive()
    {
        await RunningAsync(1);
        var claim = await ClaimNextAsync();

        for (var i = 0; i < 5; i++)
        {
            _store.Clock.Advance(TimeSpan.FromSeconds(6));
            await Ledger.RenewAsync([claim], Lease, None);
            Assert.Equal(0, await Ledger.SweepAsync(None));
        }

        Assert.True(await Ledger.FinishAsync(claim, Samples.Graded("f"), None));
    }

    [Fact]
    public async Task Renew_leaves_alone_what_the_worker_does_not_hold()
    {
        await RunningAsync(2);
        var held = await ClaimNextAsync();
        var unknown = await ClaimNextAsync();

        _store.Clock.Advance(TimeSpan.FromSeconds(6));
        await Ledger.RenewAsync([held], Lease, None);
        _store.Clock.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(1, await Ledger.SweepAsync(None));

        Assert.Equal((await Ledger.ListReadyAsync(5, None)).Single().Item, unknown.Item);
        Assert.True(await Ledger.FinishAsync(held, Samples.Graded("f"), None));
    }

    [Fact]
    public async Task Renew_of_an_older_claim_does_not_renew_its_successor()
    {
        await RunningAsync(1);
        var old = await ClaimNextAsync("old");
        _store.Clock.Advance(Lease + TimeSpan.FromSeconds(1));
        await Ledger.SweepAsync(None);
        await ClaimNextAsync("successor");

        _store.Clock.Advance(TimeSpan.FromSeconds(6));
        await Ledger.RenewAsync([old], Lease, None);
        _store.Clock.Advance(TimeSpan.FromSeconds(3));

        Assert.Equal(1, await Ledger.SweepAsync(None));
    }

    [Fact]
    public async Task Lost_item_waits_for_its_lease_and_no_longer()
    {
        await RunningAsync(1);
        for (var loss = 1; loss < AttemptRules.MaxAttempts; loss++)
        {
            await ClaimNextAsync("dies");
            _store.Clock.Advance(Lease + TimeSpan.FromSeconds(0.1));
            await Ledger.SweepAsync(None);
            Assert.Single(await Ledger.ListReadyAsync(1, None));
        }
    }

    [Fact]
    public async Task GiveBack_does_not_count_the_attempt_and_refuses_a_late_outcome()
    {
        await RunningAsync(2);
        var claim = await ClaimNextAsync();

        Assert.Equal(1, await Ledger.GiveBackAsync("worker-1", None));
        Assert.False(await Ledger.FinishAsync(claim, Samples.Graded("f"), None));

        var item = await ItemAsync("item-0");
        Assert.Equal((ItemState.Queued, 0), (item.State, item.AttemptCount));
        Assert.Equal(2, (await ClaimNextAsync()).Fence);
    }

    [Fact]
    public async Task Sweep_makes_a_lost_item_a_suspect_that_comes_last_and_fails_it_after_three_losses()
    {
        await RunningAsync(2);
        await ClaimNextAsync("dies");

        _store.Clock.Advance(Lease + TimeSpan.FromSeconds(1));
        await Ledger.SweepAsync(None);
        var ready = await Ledger.ListReadyAsync(5, None);
        Assert.Equal([("item-1", false), ("item-0", true)], ready.Select(one => (one.Item.Key, one.Suspect)));

        for (var attempt = 2; attempt <= AttemptRules.MaxAttempts; attempt++)
        {
            _store.Clock.Advance(TimeSpan.FromSeconds(31));
            Assert.NotNull(await Ledger.ClaimAsync(ready[1].Item, "dies", Lease, None));
            _store.Clock.Advance(Lease + TimeSpan.FromSeconds(1));
            await Ledger.SweepAsync(None);
        }

        var item = await ItemAsync("item-0");
        Assert.Equal((ItemState.Failed, 3, ErrorReason.WorkerLost), (item.State, item.AttemptCount, item.Error!.Reason));
        Assert.True(await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("neighbor"), None));
        Assert.Equal(BatchState.Succeeded, (await Ledger.GetAsync("lots", None)).State);
    }

    [Fact]
    public async Task ListReady_serves_batches_in_turn()
    {
        await RunningAsync(50, "long");
        await RunningAsync(2, "short");

        var order = new List<string>();
        for (var i = 0; i < 4; i++)
        {
            var claim = await ClaimNextAsync();
            _store.Clock.Advance(TimeSpan.FromMilliseconds(1));
            order.Add(claim.Item.Batch);
        }

        Assert.Equal(2, order.Count(batch => batch == "short"));
        Assert.Equal(2, (await Ledger.ListReadyAsync(2, None)).Count);
    }

    [Fact]
    public async Task GiveUp_fails_an_item_that_waits_and_leaves_one_that_was_claimed_since()
    {
        await RunningAsync(2);
        var ready = await Ledger.ListReadyAsync(2, None);
        var claim = await Ledger.ClaimAsync(ready[1].Item, "worker-1", Lease, None);

        Assert.True(await Ledger.GiveUpAsync(ready[0], None));
        Assert.False(await Ledger.GiveUpAsync(ready[0], None));
        Assert.False(await Ledger.GiveUpAsync(ready[1], None));
        await Ledger.GiveBackAsync("worker-1", None);
        Assert.False(await Ledger.GiveUpAsync(ready[1], None));

        var item = await ItemAsync("item-0");
        Assert.Equal((ItemState.Failed, 0, ErrorReason.WorkerLost), (item.State, item.AttemptCount, item.Error!.Reason));
        Assert.Equal(ItemState.Queued, (await ItemAsync("item-1")).State);
        Assert.Equal(1, claim!.Fence);
    }

    [Fact]
    public async Task ListToAnnounce_gives_every_event_of_every_tenant_until_it_is_noted()
    {
        await RunningAsync(2);
        using (_store.Tenants.Enter(new Tenant("other")))
        {
            await RunningAsync(0);
        }

        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("f"), None);

        var first = await Ledger.ListToAnnounceAsync(10, None);
        await Ledger.AnnouncedAsync(Tenant.Local, "lots", 1, None);
        // Late and out of order: what was noted stays noted.
        await Ledger.AnnouncedAsync(Tenant.Local, "lots", 0, None);
        var second = await Ledger.ListToAnnounceAsync(10, None);
        Assert.Single(await Ledger.ListToAnnounceAsync(1, None));
        await Ledger.AnnouncedAsync(Tenant.Local, "lots", 2, None);
        await Ledger.AnnouncedAsync(new Tenant("other"), "lots", 1, None);

        Assert.Equal<(string, long, string?)>(
            [("local", 1, null), ("local", 2, "item-0"), ("other", 1, null)],
            first.Select(one => (one.Tenant.Id, one.Event.Sequence, one.Event.Item?.Given.Key)).Order());
        Assert.Equal(
            [("local", 2L), ("other", 1L)], second.Select(one => (one.Tenant.Id, one.Event.Sequence)).Order());
        Assert.Empty(await Ledger.ListToAnnounceAsync(10, None));
    }
}
