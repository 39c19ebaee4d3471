using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Server.Batches;

/// <summary>Every way in which a request about batches can be refused, in gRPC and in JSON.</summary>
public sealed class BatchErrorTests(SharedServer shared)
{
    private static readonly string Nowhere = $"photos/{new string('0', 64)}";

    private RunningServer Server => shared.Server;

    public static TheoryData<string, string, string> RefusedItems() => new()
    {
        { "VALUE_OUT_OF_RANGE", "items", """[]""" },
        { "VALUE_OUT_OF_RANGE", "items", $"[{string.Join(',', Enumerable.Repeat("{}", 1001))}]" },
        { "FIELD_INVALID", "items[0].key", """[{"key":"a/b","vehicleRef":"v","photos":["PHOTO"]}]""" },
        { "FIELD_INVALID", "items[0].key", """[{"vehicleRef":"v","photos":["PHOTO"]}]""" },
        { "FIELD_INVALID", "items[0].key", $$"""[{"key":"{{new string('k', 64)}}","vehicleRef":"v","photos":["PHOTO"]}]""" },
        { "FIELD_INVALID", "items[1].vehicle_ref", """[{"key":"a","vehicleRef":"v","photos":["PHOTO"]},{"key":"b","photos":["PHOTO"]}]""" },
        { "FIELD_INVALID", "items[0].vehicle_ref", $$"""[{"key":"a","vehicleRef":"{{new string('v', 129)}}","photos":["PHOTO"]}]""" },
        { "FIELD_INVALID", "items[0].panel", $$"""[{"key":"a","vehicleRef":"v","panel":"{{new string('p', 65)}}","photos":["PHOTO"]}]""" },
        { "PHOTO_COUNT_OUT_OF_RANGE", "items[0].photos", """[{"key":"a","vehicleRef":"v"}]""" },
        { "PHOTO_COUNT_OUT_OF_RANGE", "items[0].photos", $$"""[{"key":"a","vehicleRef":"v","photos":[{{string.Join(',', Enumerable.Repeat("\"PHOTO\"", 13))}}]}]""" },
        { "FIELD_INVALID", "items[0].photos[1]", """[{"key":"a","vehicleRef":"v","photos":["PHOTO","door.jpg"]}]""" },
        { "EVIDENCE_UNKNOWN", "items[0].facts.evidence[0]", """[{"key":"a","vehicleRef":"v","photos":["PHOTO"],"facts":{"evidence":["form.ringz"]}}]""" },
        { "FIELD_INVALID", "items[0].facts.applied_on", """[{"key":"a","vehicleRef":"v","photos":["PHOTO"],"facts":{"appliedOn":"May"}}]""" },
        { "FIELD_INVALID", "items[0].facts.panel", """[{"key":"a","vehicleRef":"v","panel":"hood","photos":["PHOTO"],"facts":{"panel":"roof"}}]""" },
    };

    [Theory]
    [MemberData(nameof(RefusedItems))]
    public async Task AddBatchItems_refused_item_is_named_in_grpc_and_json(string reason, string field, string items)
    {
        var name = await Server.OpenBatchAsync();
        var json = $$"""{"items":{{items.Replace("PHOTO", Nowhere, StringComparison.Ordinal)}}}""";
        var request = JsonParser.Default.Parse<AddBatchItemsRequest>(json);
        request.Name = name;

        var status = await Errors.OfAsync(() => Server.Batches.AddBatchItemsAsync(request));
        var (jsonReason, body) = await Errors.OfJsonAsync(
            Server.Http, HttpMethod.Post, $"/v1/{name}:addItems", json, HttpStatusCode.BadRequest);

        Assert.Equal((reason, field), (status.Info().Reason, status.Field()));
        Assert.Equal((reason, field), (jsonReason, Errors.FieldOf(body)));
        Assert.Equal(0, (await Server.Batches.GetBatchAsync(new GetBatchRequest { Name = name })).ItemCount);
    }

    public static TheoryData<string, string, string> RefusedBatches() => new()
    {
        { "FIELD_INVALID", "batch_id", """{"batchId":"Lots"}""" },
        { "FIELD_INVALID", "batch_id", """{"batchId":"abc"}""" },
        { "FIELD_INVALID", "batch_id", """{"batchId":"1lot"}""" },
        { "FIELD_INVALID", "batch_id", $$"""{"batchId":"{{new string('b', 64)}}"}""" },
        { "FIELD_INVALID", "batch.display_name", $$$"""{"batch":{"displayName":"{{{new string('n', 256)}}}"}}""" },
        { "FIELD_INVALID", "request_id", """{"requestId":"7"}""" },
    };

    [Theory]
    [MemberData(nameof(RefusedBatches))]
    public async Task CreateBatch_refused_field_is_named_in_grpc_and_json(string reason, string field, string json)
    {
        var status = await Errors.OfAsync(() => Server.Batches.CreateBatchAsync(JsonParser.Default.Parse<CreateBatchRequest>(json)));
        var (jsonReason, body) = await Errors.OfJsonAsync(
            Server.Http, HttpMethod.Post, "/v1/batches", json, HttpStatusCode.BadRequest);

        Assert.Equal((reason, field), (status.Info().Reason, status.Field()));
        Assert.Equal((reason, field), (jsonReason, Errors.FieldOf(body)));
    }

    [Fact]
    public async Task CreateBatch_request_id_of_another_request_is_refused_in_grpc_and_json()
    {
        const string id = "6a3f5c30-7d0b-4f53-8a55-94a7ed0d7c55";
        await Server.Batches.CreateBatchAsync(new CreateBatchRequest { RequestId = id });
        var other = new CreateBatchRequest { RequestId = id, Batch = new Batch { DisplayName = "other" } };

        await AssertAsync(
            "REQUEST_ID_REUSED", Code.InvalidArgument, () => Server.Batches.CreateBatchAsync(other),
            HttpMethod.Post, "/v1/batches", JsonFormatter.Default.Format(other), HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task Taken_names_are_ALREADY_EXISTS_and_name_the_resource()
    {
        var photo = await Server.UploadAsync(Panels.Sound);
        var name = await Server.OpenBatchAsync(BatchSteps.Item("a", "lot", photo));
        var id = name["batches/".Length..];

        var status = await AssertAsync(
            "BATCH_EXISTS", Code.AlreadyExists, () => Server.Batches.CreateBatchAsync(new CreateBatchRequest { BatchId = id }),
            HttpMethod.Post, "/v1/batches", $$"""{"batchId":"{{id}}"}""", HttpStatusCode.Conflict);
        Assert.Equal(name, status.GetDetail<ResourceInfo>()!.ResourceName);

        var add = new AddBatchItemsRequest { Items = { BatchSteps.Item("a", "other lot", photo) } };
        var json = JsonFormatter.Default.Format(add);
        add.Name = name;
        status = await AssertAsync(
            "ITEM_EXISTS", Code.AlreadyExists, () => Server.Batches.AddBatchItemsAsync(add),
            HttpMethod.Post, $"/v1/{name}:addItems", json, HttpStatusCode.Conflict);
        Assert.Equal($"{name}/items/a", status.GetDetail<ResourceInfo>()!.ResourceName);
    }

    [Fact]
    public async Task AddBatchItems_missing_photo_is_NOT_FOUND_and_says_which_item_names_it()
    {
        var name = await Server.OpenBatchAsync();
        var add = new AddBatchItemsRequest { Items = { BatchSteps.Item("a", "lot", Nowhere) } };
        var json = JsonFormatter.Default.Format(add);
        add.Name = name;

        var status = await AssertAsync(
            "PHOTO_NOT_FOUND", Code.NotFound, () => Server.Batches.AddBatchItemsAsync(add),
            HttpMethod.Post, $"/v1/{name}:addItems", json, HttpStatusCode.NotFound);

        Assert.Equal("items[0].photos", status.Info().Metadata["field"]);
        Assert.Equal(Nowhere, status.GetDetail<ResourceInfo>()!.ResourceName);
    }

    [Theory]
    [InlineData("addItems")]
    [InlineData("start")]
    [InlineData("cancel")]
    [InlineData("retry")]
    [InlineData("get")]
    [InlineData("items")]
    [InlineData("vehicles")]
    [InlineData("watch")]
    public async Task Batch_that_is_not_there_or_no_name_is_refused_by_every_rpc(string rpc)
    {
        foreach (var (id, reason, code, http) in new[]
        {
            ("gone", "BATCH_NOT_FOUND", Code.NotFound, HttpStatusCode.NotFound),
            ("No-Name", "FIELD_INVALID", Code.InvalidArgument, HttpStatusCode.BadRequest),
        })
        {
            var photo = await Server.UploadAsync(Panels.Sound);
            var add = new AddBatchItemsRequest { Items = { BatchSteps.Item("a", "lot", photo) } };
            var json = JsonFormatter.Default.Format(add);
            add.Name = $"batches/{id}";
            var name = add.Name;
            await (rpc switch
            {
                "addItems" => AssertAsync(reason, code, () => Server.Batches.AddBatchItemsAsync(add), HttpMethod.Post, $"/v1/{name}:addItems", json, http),
                "start" => AssertAsync(reason, code, () => Server.Batches.StartBatchAsync(new() { Name = name }), HttpMethod.Post, $"/v1/{name}:start", "{}", http),
                "cancel" => AssertAsync(reason, code, () => Server.Batches.CancelBatchAsync(new() { Name = name }), HttpMethod.Post, $"/v1/{name}:cancel", "{}", http),
                "retry" => AssertAsync(reason, code, () => Server.Batches.RetryBatchAsync(new() { Name = name }), HttpMethod.Post, $"/v1/{name}:retry", "{}", http),
                "get" => AssertAsync(reason, code, () => Server.Batches.GetBatchAsync(new() { Name = name }), HttpMethod.Get, $"/v1/{name}", null, http),
                "items" => AssertAsync(reason, code, () => Server.Batches.ListBatchItemsAsync(new() { Parent = name }), HttpMethod.Get, $"/v1/{name}/items", null, http),
                "vehicles" => AssertAsync(reason, code, () => Server.Batches.ListBatchVehiclesAsync(new() { Parent = name }), HttpMethod.Get, $"/v1/{name}/vehicles", null, http),
                _ => AssertWatchAsync(reason, code, new() { Name = name }, $"/v1/{name}:watch", http),
            });
        }
    }

    [Fact]
    public async Task Wrong_state_is_FAILED_PRECONDITION_and_names_the_batch()
    {
        var photo = await Server.UploadAsync(Panels.Sound);
        var name = await Server.OpenBatchAsync(BatchSteps.Item("a", "lot", photo));
        var add = new AddBatchItemsRequest { Items = { BatchSteps.Item("b", "lot", photo) } };
        var json = JsonFormatter.Default.Format(add);
        add.Name = name;

        await AssertAsync(
            "BATCH_NOT_AT_REST", Code.FailedPrecondition, () => Server.Batches.RetryBatchAsync(new() { Name = name }),
            HttpMethod.Post, $"/v1/{name}:retry", "{}", HttpStatusCode.BadRequest);
        await Server.Batches.CancelBatchAsync(new() { Name = name });
        var status = await AssertAsync(
            "BATCH_NOT_OPEN", Code.FailedPrecondition, () => Server.Batches.StartBatchAsync(new() { Name = name }),
            HttpMethod.Post, $"/v1/{name}:start", "{}", HttpStatusCode.BadRequest);
        Assert.Equal(name, Assert.Single(status.GetDetail<PreconditionFailure>()!.Violations).Subject);
        await AssertAsync(
            "BATCH_NOT_OPEN", Code.FailedPrecondition, () => Server.Batches.AddBatchItemsAsync(add),
            HttpMethod.Post, $"/v1/{name}:addItems", json, HttpStatusCode.BadRequest);
    }

    [Theory]
    [InlineData("start")]
    [InlineData("cancel")]
    [InlineData("retry")]
    public async Task Etag_that_is_not_the_batchs_is_ABORTED(string rpc)
    {
        var name = await Server.OpenBatchAsync();
        if (rpc == "retry")
        {
            await Server.Batches.CancelBatchAsync(new() { Name = name });
        }

        foreach (var etag in new[] { "0", "made-up" })
        {
            await AssertAsync(
                "ETAG_MISMATCH",
                Code.Aborted,
                () => rpc switch
                {
                    "start" => Server.Batches.StartBatchAsync(new() { Name = name, Etag = etag }),
                    "cancel" => Server.Batches.CancelBatchAsync(new() { Name = name, Etag = etag }),
                    _ => Server.Batches.RetryBatchAsync(new() { Name = name, Etag = etag }),
                },
                HttpMethod.Post,
                $"/v1/{name}:{rpc}",
                $$"""{"etag":"{{etag}}"}""",
                HttpStatusCode.Conflict);
        }
    }

    [Fact]
    public async Task Lists_refuse_bad_pages_states_and_sequences_in_grpc_and_json()
    {
        var name = await Server.OpenBatchAsync();
        var bad = HttpStatusCode.BadRequest;

        foreach (var (size, token, reason) in new[] { (-1, "", "VALUE_OUT_OF_RANGE"), (0, "made-up", "FIELD_INVALID") })
        {
            var query = $"?pageSize={size}&pageToken={token}";
            await AssertAsync(
                reason, Code.InvalidArgument, () => Server.Batches.ListBatchesAsync(new() { PageSize = size, PageToken = token }),
                HttpMethod.Get, $"/v1/batches{query}", null, bad);
            await AssertAsync(
                reason, Code.InvalidArgument, () => Server.Batches.ListBatchItemsAsync(new() { Parent = name, PageSize = size, PageToken = token }),
                HttpMethod.Get, $"/v1/{name}/items{query}", null, bad);
            await AssertAsync(
                reason, Code.InvalidArgument, () => Server.Batches.ListBatchVehiclesAsync(new() { Parent = name, PageSize = size, PageToken = token }),
                HttpMethod.Get, $"/v1/{name}/vehicles{query}", null, bad);
        }

        var status = await AssertAsync(
            "FIELD_INVALID", Code.InvalidArgument, () => Server.Batches.ListBatchItemsAsync(new() { Parent = name, States = { BatchItem.Types.State.Unspecified } }),
            HttpMethod.Get, $"/v1/{name}/items?states=STATE_UNSPECIFIED", null, bad);
        Assert.Equal("states[0]", status.Field());
        await AssertWatchAsync(
            "VALUE_OUT_OF_RANGE", Code.InvalidArgument, new() { Name = name, StartSequence = -1 }, $"/v1/{name}:watch?startSequence=-1", bad);
    }

    private async Task<Google.Rpc.Status> AssertAsync<T>(
        string reason, Code code, Func<AsyncUnaryCall<T>> call, HttpMethod method, string path, string? json, HttpStatusCode http)
    {
        var status = await Errors.OfAsync(call);
        var (jsonReason, _) = await Errors.OfJsonAsync(Server.Http, method, path, json, http);
        Assert.Equal((reason, (int)code, reason), (status.Info().Reason, status.Code, jsonReason));
        return status;
    }

    private async Task<Google.Rpc.Status> AssertWatchAsync(
        string reason, Code code, WatchBatchRequest request, string path, HttpStatusCode http)
    {
        using var call = Server.Batches.WatchBatch(request);
        var failure = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        var status = failure.GetRpcStatus()!;
        var (jsonReason, _) = await Errors.OfJsonAsync(Server.Http, HttpMethod.Get, path, null, http);
        Assert.Equal((reason, (int)code, reason), (status.Info().Reason, status.Code, jsonReason));
        return status;
    }
}
