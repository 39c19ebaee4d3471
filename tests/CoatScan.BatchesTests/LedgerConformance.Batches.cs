using CoatScan.Batches;
using CoatScan.Findings;

namespace CoatScan.BatchesTests;

/// <content>Create, add, start, cancel, retry, list.</content>
public abstract partial class LedgerConformance
{
    [Fact]
    public async Task Create_under_one_request_id_in_parallel_is_one_batch()
    {
        var key = new RequestKey("5b0f6b1a-6f0e-4c8e-9f53-4d5b0f6b1a77", "hash");

        var batches = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ =>
            Task.Run(() => Ledger.CreateAsync(null, "name", key, None))));

        Assert.Single(batches.Select(batch => batch.Id).Distinct());
        Assert.Single((await Ledger.ListAsync(0, "", None)).Rows);
        Assert.Equal(
            ErrorReason.RequestIdReused,
            await ReasonAsync(() => Ledger.CreateAsync(null, "other", key with { RequestHash = "other" }, None)));
    }

    [Fact]
    public async Task Create_taken_id_is_refused_and_leaves_the_request_id_free()
    {
        var key = new RequestKey("5b0f6b1a-6f0e-4c8e-9f53-4d5b0f6b1a77", "hash");
        await Ledger.CreateAsync("lots", "", null, None);

        Assert.Equal(ErrorReason.BatchExists, await ReasonAsync(() => Ledger.CreateAsync("lots", "", key, None)));
        Assert.Equal("more", (await Ledger.CreateAsync("more", "", key, None)).Id);
    }

    [Fact]
    public async Task AddItems_again_adds_nothing_and_other_content_adds_none_of_all()
    {
        await Ledger.CreateAsync("lots", "", null, None);
        await Ledger.AddItemsAsync("lots", Samples.Items(3), None);

        var again = await Ledger.AddItemsAsync("lots", Samples.Items(5), None);
        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => Ledger.AddItemsAsync(
            "lots", [Samples.Item("new"), Samples.Item("item-2", vehicle: "lot-2")], None));

        Assert.Equal(5, again.ItemCount);
        Assert.Equal((ErrorReason.ItemExists, "items[1].key"), (refusal.Reason, refusal.Field));
        Assert.Equal(5, (await Ledger.GetAsync("lots", None)).ItemCount);
        var items = (await Ledger.ListItemsAsync("lots", [], 0, "", None)).Rows;
        Assert.Equal([0, 1, 2, 3, 4], items.Select(item => item.Position));
        Assert.Equal(Samples.Items(5).Select(item => item.Key), items.Select(item => item.Given.Key));
    }

    [Fact]
    public async Task AddItems_above_the_limit_of_a_batch_is_refused()
    {
        await Ledger.CreateAsync("lots", "", null, None);
        for (var from = 0; from < BatchLimits.MaxItems; from += 10_000)
        {
            await Ledger.AddItemsAsync("lots", Samples.Items(10_000, from), None);
        }

        Assert.Equal(
            ErrorReason.ValueOutOfRange,
            await ReasonAsync(() => Ledger.AddItemsAsync("lots", [Samples.Item("one-too-many")], None)));
        Assert.Equal(BatchLimits.MaxItems, (await Ledger.GetAsync("lots", None)).ItemCount);
    }

    [Fact]
    public async Task Start_twice_is_once_and_closes_the_batch_to_items()
    {
        var started = await RunningAsync(1);
        var again = await Ledger.StartAsync("lots", null, None);

        Assert.Equal(started, again);
        Assert.Equal(
            ErrorReason.BatchNotOpen, await ReasonAsync(() => Ledger.AddItemsAsync("lots", Samples.Items(2), None)));
    }

    [Fact]
    public async Task Start_of_an_empty_batch_comes_to_rest_at_once()
    {
        var batch = await RunningAsync(0);

        Assert.Equal((BatchState.Succeeded, true), (batch.State, batch.AtRest));
    }

    [Fact]
    public async Task Items_of_an_open_batch_are_not_ready()
    {
        await Ledger.CreateAsync("lots", "", null, None);
        await Ledger.AddItemsAsync("lots", Samples.Items(1), None);

        Assert.Empty(await Ledger.ListReadyAsync(5, None));
        Assert.Null(await Ledger.ClaimAsync(new ItemRef(Tenant.Local, "lots", "item-0"), "w", Lease, None));
    }

    [Fact]
    public async Task Cancel_stops_what_waits_lets_finish_what_runs_and_rests_after_it()
    {
        await RunningAsync(3);
        var claim = await ClaimNextAsync();

        var cancelled = await Ledger.CancelAsync("lots", null, None);
        Assert.Equal((BatchState.Cancelled, 2, false), (cancelled.State, cancelled.CancelledCount, cancelled.AtRest));
        Assert.Empty(await Ledger.ListReadyAsync(5, None));
        Assert.Equal(ErrorReason.BatchNotAtRest, await ReasonAsync(() => Ledger.RetryAsync("lots", null, None)));
        Assert.True(await Ledger.FinishAsync(claim, Samples.Graded("f"), None));

        var rest = await Ledger.GetAsync("lots", None);
        Assert.Equal((BatchState.Cancelled, 1, true), (rest.State, rest.GradedCount, rest.AtRest));
        Assert.Equal(ErrorReason.BatchNotOpen, await ReasonAsync(() => Ledger.StartAsync("lots", null, None)));
    }

    [Fact]
    public async Task Cancel_also_stops_what_would_be_tried_again()
    {
        await RunningAsync(2);
        var fails = await ClaimNextAsync("a");
        await ClaimNextAsync("dies");
        await Ledger.CancelAsync("lots", null, None);

        await Ledger.FailAsync(fails, ItemError.Internal(), None);
        _store.Clock.Advance(Lease + TimeSpan.FromSeconds(1));
        await Ledger.SweepAsync(None);

        var rest = await Ledger.GetAsync("lots", None);
        Assert.Equal((2, true), (rest.CancelledCount, rest.AtRest));
    }

    [Fact]
    public async Task Retry_queues_failed_and_cancelled_items_with_fresh_attempts()
    {
        await RunningAsync(3);
        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("f"), None);
        var refusal = new CoatScanException(ErrorReason.PhotoTruncated, "The photo is cut.");
        await Ledger.FailAsync(await ClaimNextAsync(), ItemError.Of(refusal), None);
        await Ledger.CancelAsync("lots", null, None);

        var again = await Ledger.RetryAsync("lots", null, None);

        Assert.Equal((BatchState.Running, 1, 0, 0), (again.State, again.GradedCount, again.FailedCount, again.CancelledCount));
        Assert.Equal(["item-1", "item-2"], (await Ledger.ListReadyAsync(5, None)).Select(one => one.Item.Key));
        Assert.Equal(1, (await ClaimNextAsync()).Attempt);
    }

    [Fact]
    public async Task Etag_of_an_older_version_is_refused()
    {
        var created = await Ledger.CreateAsync("lots", "", null, None);
        var added = await Ledger.AddItemsAsync("lots", Samples.Items(1), None);

        Assert.Equal(
            ErrorReason.EtagMismatch, await ReasonAsync(() => Ledger.StartAsync("lots", created.Version, None)));
        Assert.Equal(BatchState.Running, (await Ledger.StartAsync("lots", added.Version, None)).State);
    }

    [Fact]
    public async Task Events_are_numbered_without_gaps_and_show_the_batch_as_it_was()
    {
        await RunningAsync(2);
        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("f"), None);
        var refusal = new CoatScanException(ErrorReason.PhotoTruncated, "The photo is cut.");
        await Ledger.FailAsync(await ClaimNextAsync(), ItemError.Of(refusal), None);
        await Ledger.RetryAsync("lots", null, None);

        var events = await Ledger.ListEventsAsync("lots", 1, 100, None);
        Assert.Equal([1, 2, 3, 4], events.Select(one => one.Sequence));
        Assert.Equal([null, "item-0", "item-1", null], events.Select(one => one.Item?.Given.Key));
        Assert.Equal(
            [(BatchState.Running, 0, 0), (BatchState.Running, 1, 0), (BatchState.Succeeded, 1, 1), (BatchState.Running, 1, 0)],
            events.Select(one => (one.Batch.State, one.Batch.GradedCount, one.Batch.FailedCount)));
        Assert.Equal((ItemState.Failed, ErrorReason.PhotoTruncated), (events[2].Item!.State, events[2].Item!.Error!.Reason));
        Assert.Equal([3, 4], (await Ledger.ListEventsAsync("lots", 3, 100, None)).Select(one => one.Sequence));
    }

    [Fact]
    public async Task Pages_visit_every_row_once()
    {
        await RunningAsync(25);
        for (var i = 0; i < 4; i++)
        {
            await Ledger.CreateAsync($"batch-{i}", "", null, None);
        }

        var items = await WalkAsync(token => Ledger.ListItemsAsync("lots", [ItemState.Queued], 4, token, None));
        var batches = await WalkAsync(token => Ledger.ListAsync(2, token, None));

        Assert.Equal(Enumerable.Range(0, 25), items.Select(item => item.Position));
        Assert.Equal(5, batches.Select(batch => batch.Id).Distinct().Count());
        Assert.Empty((await Ledger.ListItemsAsync("lots", [ItemState.Graded], 0, "", None)).Rows);
        Assert.Equal(ErrorReason.ValueOutOfRange, await ReasonAsync(() => Ledger.ListAsync(-1, "", None)));
        Assert.Equal(ErrorReason.FieldInvalid, await ReasonAsync(() => Ledger.ListAsync(0, "made-up", None)));
    }

    [Fact]
    public async Task Vehicles_come_worst_first_with_their_panels_and_retakes()
    {
        await Ledger.CreateAsync("lots", "", null, None);
        await Ledger.AddItemsAsync(
            "lots",
            [
                Samples.Item("a-1", "mild"), Samples.Item("b-1", "bad", "hood"), Samples.Item("b-2", "bad", "hood"),
                Samples.Item("b-3", "bad", "roof"), Samples.Item("c-1", "waits"), Samples.Item("d-1", "mild too"),
            ],
            None);
        await Ledger.StartAsync("lots", null, None);
        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("a", severity: 10), None);
        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("b-1", severity: 30, "Hold still."), None);
        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("b-2", severity: 70), None);
        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("b-3", severity: 50), None);
        var waits = await ClaimNextAsync();
        await Ledger.FinishAsync(await ClaimNextAsync(), Samples.Graded("d-1", severity: 10), None);

        var vehicles = await WalkAsync(token => Ledger.ListVehiclesAsync("lots", 1, token, None));

        Assert.Equal(["bad", "mild", "mild too", "waits"], vehicles.Select(one => one.VehicleRef));
        Assert.Equal(
            [("hood", "findings/b-2"), ("roof", "findings/b-3")],
            vehicles[0].Panels.Select(panel => (panel.Panel, panel.Finding)));
        Assert.Equal(["Hold still."], vehicles[0].Panels[0].Retakes);
        Assert.Equal((0, 1), (vehicles[3].Panels.Count, vehicles[3].OpenCount));
        Assert.Equal("waits", waits.Given.VehicleRef);
    }

    [Fact]
    public async Task Tenants_see_nothing_of_each_other_and_workers_serve_all()
    {
        await RunningAsync(1);
        using (_store.Tenants.Enter(new Tenant("other")))
        {
            Assert.Equal(ErrorReason.BatchNotFound, await ReasonAsync(() => Ledger.GetAsync("lots", None)));
            Assert.Empty((await Ledger.ListAsync(0, "", None)).Rows);
            await RunningAsync(1);
        }

        var ready = await Ledger.ListReadyAsync(5, None);
        foreach (var one in ready)
        {
            var claim = await Ledger.ClaimAsync(one.Item, "w", Lease, None);
            await Ledger.FinishAsync(claim!, Samples.Graded($"f-{one.Item.Tenant}"), None);
        }

        Assert.Equal(["local", "other"], ready.Select(one => one.Item.Tenant.Id).Order());
        Assert.Equal("findings/f-local", (await ItemAsync("item-0")).Finding);
        using (_store.Tenants.Enter(new Tenant("other")))
        {
            Assert.Equal("findings/f-other", (await ItemAsync("item-0")).Finding);
            Assert.Equal(BatchState.Succeeded, (await Ledger.GetAsync("lots", None)).State);
        }
    }

    private static async Task<List<T>> WalkAsync<T>(Func<string, Task<BatchPage<T>>> read)
    {
        var rows = new List<T>();
        var token = "";
        do
        {
            var page = await read(token);
            rows.AddRange(page.Rows);
            token = page.NextPageToken;
        }
        while (token.Length > 0);

        return rows;
    }
}
