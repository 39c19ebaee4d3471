using System.Text.Json;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Server.Batches;

public sealed class BatchTests(SharedServer shared)
{
    private RunningServer Server => shared.Server;

    [Fact]
    public async Task Batch_is_graded_watched_listed_and_summarized_worst_vehicle_first()
    {
        var loss = await Server.UploadAsync(Panels.FilmLoss);
        var sound = await Server.UploadAsync(Panels.Sound);
        var other = await Server.UploadAsync(Panels.NotAPanel);
        var hood = BatchSteps.Item("bad-hood", "lot-2", loss, await Server.UploadAsync(BatchSteps.Variant(Panels.FilmLoss, 1)));
        hood.Panel = "hood";
        hood.Facts = new PanelFacts { ExternalRef = "claim 7", Evidence = { "relief.sunk" } };
        var name = await Server.OpenBatchAsync(
            BatchSteps.Item("fine", "lot-1", sound), hood, BatchSteps.Item("no-panel", "lot-3", other));

        await Server.Batches.StartBatchAsync(new StartBatchRequest { Name = name });
        var events = await Server.WatchAsync(name);

        Assert.Equal([1, 2, 3, 4], events.Select(one => one.Sequence));
        Assert.Null(events[0].Item);
        Assert.Equal([0, 1, 2, 3], events.Select(one => one.Batch.GradedCount));
        Assert.Equal(Batch.Types.State.Succeeded, events[^1].Batch.State);
        Assert.NotNull(events[^1].Batch.FinishTime);
        Assert.Equal([3, 4], (await Server.WatchAsync(name, 3)).Select(one => one.Sequence));

        var items = (await Server.Batches.ListBatchItemsAsync(new ListBatchItemsRequest { Parent = name })).Items;
        Assert.Equal(["fine", "bad-hood", "no-panel"], items.Select(item => item.Key));
        Assert.All(items, item => Assert.Equal((BatchItem.Types.State.Graded, 1), (item.State, item.AttemptCount)));
        Assert.Equal($"{name}/items/bad-hood", items[1].Name);
        Assert.Equal(["relief.sunk"], items[1].Facts.Evidence);
        var finding = await Server.Findings.GetFindingAsync(new GetFindingRequest { Name = items[1].Finding });
        Assert.Equal(("hood", "claim 7", 2), (finding.Panel, finding.ExternalRef, finding.Photos.Count));

        var vehicles = (await Server.Batches.ListBatchVehiclesAsync(new ListBatchVehiclesRequest { Parent = name })).Vehicles;
        Assert.Equal("lot-2", vehicles[0].VehicleRef);
        Assert.Equal(["lot-1", "lot-2", "lot-3"], vehicles.Select(vehicle => vehicle.VehicleRef).Order());
        var panel = Assert.Single(vehicles[0].Panels);
        Assert.Equal(("hood", items[1].Finding), (panel.Panel, panel.Finding));
        Assert.Equal(finding.Conditions[0].Condition, panel.Condition);
        Assert.Equal(finding.Verdict, panel.Verdict);
        Assert.NotEmpty(vehicles.Single(vehicle => vehicle.VehicleRef == "lot-3").Panels[0].Retakes);
    }

    [Fact]
    public async Task Json_serves_the_same_batch()
    {
        var photo = await Server.UploadAsync(Panels.Sound);
        var id = BatchSteps.NewId();

        await PostAsync("/v1/batches", $$$"""{"batchId":"{{{id}}}","batch":{"displayName":"Monday"}}""");
        await PostAsync($"/v1/batches/{id}:addItems", $$"""{"items":[{"key":"a","vehicleRef":"lot-1","photos":["{{photo}}"]}]}""");
        await PostAsync($"/v1/batches/{id}:start", "{}");
        var watched = await Server.Http.GetStringAsync($"/v1/batches/{id}:watch", TestContext.Current.CancellationToken);
        var batch = await GetAsync($"/v1/batches/{id}");
        var graded = await GetAsync($"/v1/batches/{id}/items?states=STATE_GRADED");
        var failed = await GetAsync($"/v1/batches/{id}/items?states=STATE_FAILED");
        var vehicles = await GetAsync($"/v1/batches/{id}/vehicles");

        Assert.Equal(2, watched.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Equal(("Monday", "STATE_SUCCEEDED"), (batch.GetProperty("displayName").GetString(), batch.GetProperty("state").GetString()));
        Assert.StartsWith("findings/", graded.GetProperty("items")[0].GetProperty("finding").GetString(), StringComparison.Ordinal);
        Assert.Equal(0, failed.GetProperty("items").GetArrayLength());
        Assert.Equal("lot-1", vehicles.GetProperty("vehicles")[0].GetProperty("vehicleRef").GetString());
        Assert.Contains(
            (await GetAsync("/v1/batches")).GetProperty("batches").EnumerateArray(),
            one => one.GetProperty("name").GetString() == $"batches/{id}");
    }

    [Fact]
    public async Task CreateBatch_under_one_request_id_20_times_at_once_is_one_batch_and_20_equal_answers()
    {
        var request = new CreateBatchRequest
        {
            Batch = new Batch { DisplayName = "once" },
            RequestId = "0d6c8f0e-52d2-4b4e-9d3b-2b4f0a1c7f11",
        };

        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Server.Batches.CreateBatchAsync(request).ResponseAsync));

        Assert.Single(answers.Distinct());
    }

    [Fact]
    public async Task Same_batch_submitted_twice_in_parallel_is_one_batch_and_one_finding_an_item()
    {
        var photos = new List<string>();
        for (var i = 0; i < 6; i++)
        {
            photos.Add(await Server.UploadAsync(BatchSteps.Variant(Panels.Sound, 100 + i)));
        }

        var id = BatchSteps.NewId();
        async Task SubmitAsync()
        {
            try
            {
                await Server.Batches.CreateBatchAsync(new CreateBatchRequest { BatchId = id });
            }
            catch (RpcException taken) when (taken.StatusCode == StatusCode.AlreadyExists)
            {
                // The other one was first.
            }

            var add = new AddBatchItemsRequest { Name = $"batches/{id}" };
            add.Items.Add(photos.Select((photo, i) => BatchSteps.Item($"item-{i}", "lot", photo)));
            try
            {
                await Server.Batches.AddBatchItemsAsync(add);
            }
            catch (RpcException started) when (started.GetRpcStatus()?.Info().Reason == "BATCH_NOT_OPEN")
            {
                // The other one has added the same items and started the batch.
            }

            await Server.Batches.StartBatchAsync(new StartBatchRequest { Name = $"batches/{id}" });
        }

        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(SubmitAsync)));
        var events = await Server.WatchAsync($"batches/{id}");

        Assert.Equal(Enumerable.Range(1, 7).Select(i => (long)i), events.Select(one => one.Sequence));
        Assert.Equal(6, events.Select(one => one.Item?.Finding).Where(finding => finding is not null).Distinct().Count());
        Assert.Equal((6, 6), (events[^1].Batch.ItemCount, events[^1].Batch.GradedCount));
    }

    [Fact]
    public async Task CancelBatch_stops_and_RetryBatch_goes_on()
    {
        var photo = await Server.UploadAsync(Panels.Sound);
        var name = await Server.OpenBatchAsync(BatchSteps.Item("a", "lot", photo));

        var cancelled = await Server.Batches.CancelBatchAsync(new CancelBatchRequest { Name = name });
        var again = await Server.Batches.RetryBatchAsync(new RetryBatchRequest { Name = name, Etag = cancelled.Etag });
        var events = await Server.WatchAsync(name);

        Assert.Equal((Batch.Types.State.Cancelled, 1), (cancelled.State, cancelled.CancelledCount));
        Assert.Equal(Batch.Types.State.Running, again.State);
        Assert.Equal((Batch.Types.State.Succeeded, 1), (events[^1].Batch.State, events[^1].Batch.GradedCount));
    }

    private async Task PostAsync(string path, string json)
    {
        using var response = await Server.Http.PostAsync(
            path, new StringContent(json, null, "application/json"), TestContext.Current.CancellationToken);
        var body = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.IsSuccessStatusCode, body);
    }

    private async Task<JsonElement> GetAsync(string path) => JsonDocument.Parse(
        await Server.Http.GetStringAsync(path, TestContext.Current.CancellationToken)).RootElement;
}
