using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Service.Access;
using CoatScan.Service.Batches;
using CoatScan.Service.Mapping;
using Grpc.Core;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>BatchService of the contract: map in, one call into the ledger, map out.</summary>
internal sealed class BatchEndpoint(IBatchLedger ledger, BatchRequestCheck check, BatchWatch watch)
    : Wire.BatchService.BatchServiceBase
{
    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override async Task<Wire.Batch> CreateBatch(Wire.CreateBatchRequest request, ServerCallContext context)
    {
        var displayName = request.Batch?.DisplayName ?? "";
        BatchNames.CheckDisplayName(displayName);
        return BatchMapping.ToWire(await ledger.CreateAsync(
            BatchNames.ChosenId(request.BatchId),
            displayName,
            RequestIdentity.Of(request.RequestId, request),
            context.CancellationToken).ConfigureAwait(false));
    }

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override async Task<Wire.Batch> AddBatchItems(Wire.AddBatchItemsRequest request, ServerCallContext context)
    {
        var batch = BatchNames.IdOf(request.Name, "name");
        var items = await check.ToItemsAsync(request.Items, context.CancellationToken).ConfigureAwait(false);
        return BatchMapping.ToWire(
            await ledger.AddItemsAsync(batch, items, context.CancellationToken).ConfigureAwait(false));
    }

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override async Task<Wire.Batch> StartBatch(Wire.StartBatchRequest request, ServerCallContext context) =>
        BatchMapping.ToWire(await ledger.StartAsync(
            BatchNames.IdOf(request.Name, "name"),
            BatchMapping.ToVersion(request.Etag),
            context.CancellationToken).ConfigureAwait(false));

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override async Task<Wire.Batch> CancelBatch(Wire.CancelBatchRequest request, ServerCallContext context) =>
        BatchMapping.ToWire(await ledger.CancelAsync(
            BatchNames.IdOf(request.Name, "name"),
            BatchMapping.ToVersion(request.Etag),
            context.CancellationToken).ConfigureAwait(false));

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override async Task<Wire.Batch> RetryBatch(Wire.RetryBatchRequest request, ServerCallContext context) =>
        BatchMapping.ToWire(await ledger.RetryAsync(
            BatchNames.IdOf(request.Name, "name"),
            BatchMapping.ToVersion(request.Etag),
            context.CancellationToken).ConfigureAwait(false));

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override async Task<Wire.Batch> GetBatch(Wire.GetBatchRequest request, ServerCallContext context) =>
        BatchMapping.ToWire(await ledger.GetAsync(BatchNames.IdOf(request.Name, "name"), context.CancellationToken)
            .ConfigureAwait(false));

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override async Task<Wire.ListBatchesResponse> ListBatches(
        Wire.ListBatchesRequest request, ServerCallContext context)
    {
        var page = await ledger.ListAsync(request.PageSize, request.PageToken, context.CancellationToken)
            .ConfigureAwait(false);
        var response = new Wire.ListBatchesResponse { NextPageToken = page.NextPageToken };
        response.Batches.Add(page.Rows.Select(BatchMapping.ToWire));
        return response;
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override async Task<Wire.ListBatchItemsResponse> ListBatchItems(
        Wire.ListBatchItemsRequest request, ServerCallContext context)
    {
        var batch = BatchNames.IdOf(request.Parent, "parent");
        var page = await ledger.ListItemsAsync(
            batch,
            BatchMapping.ToStates(request.States),
            request.PageSize,
            request.PageToken,
            context.CancellationToken).ConfigureAwait(false);
        var response = new Wire.ListBatchItemsResponse { NextPageToken = page.NextPageToken };
        response.Items.Add(page.Rows.Select(item => BatchMapping.ToWire(item, batch)));
        return response;
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override async Task<Wire.ListBatchVehiclesResponse> ListBatchVehicles(
        Wire.ListBatchVehiclesRequest request, ServerCallContext context)
    {
        var batch = BatchNames.IdOf(request.Parent, "parent");
        var page = await ledger.ListVehiclesAsync(
            batch, request.PageSize, request.PageToken, context.CancellationToken).ConfigureAwait(false);
        var response = new Wire.ListBatchVehiclesResponse { NextPageToken = page.NextPageToken };
        response.Vehicles.Add(page.Rows.Select(vehicle => VehicleMapping.ToWire(vehicle, batch)));
        return response;
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override Task WatchBatch(
        Wire.WatchBatchRequest request,
        IServerStreamWriter<Wire.WatchBatchResponse> responseStream,
        ServerCallContext context) =>
        watch.RunAsync(
            BatchNames.IdOf(request.Name, "name"),
            request.StartSequence,
            responseStream,
            context.GetHttpContext(),
            context.CancellationToken);
}
