using CoatScan.Cli.Connection;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Batches;

/// <summary>Brings a batch from the plan to rest; whatever is done of it already is left as it is.</summary>
internal sealed class BatchRun(ServiceConnection service, BatchPlan plan, BatchUpload upload)
{
    private const int ItemsAtOnce = 500;
    private const int MostFruitlessRounds = 5;
    private static readonly TimeSpan PauseBetweenRounds = TimeSpan.FromSeconds(1);

    /// <summary>Creates the batch, or finds it; adds its items and starts it.</summary>
    /// <param name="displayName">Name of the batch for people.</param>
    /// <param name="retry">Whether to try again what failed when it is at rest.</param>
    /// <param name="cancellationToken">Stops.</param>
    public async Task<Batch> StartAsync(string displayName, bool retry, CancellationToken cancellationToken)
    {
        var batch = await CreateAsync(displayName, cancellationToken);
        if (batch.State == Batch.Types.State.Open)
        {
            foreach (var items in Items().Chunk(ItemsAtOnce))
            {
                var request = new AddBatchItemsRequest { Name = plan.Name };
                request.Items.Add(items);
                await service.Batches.AddBatchItemsAsync(
                    request, deadline: ServiceConnection.PhotoDeadline(), cancellationToken: cancellationToken);
            }

            return await service.Batches.StartBatchAsync(
                new StartBatchRequest { Name = plan.Name },
                deadline: ServiceConnection.PhotoDeadline(),
                cancellationToken: cancellationToken);
        }

        return retry && batch.FinishTime is not null
            ? await service.Batches.RetryBatchAsync(
                new RetryBatchRequest { Name = plan.Name },
                deadline: ServiceConnection.PhotoDeadline(),
                cancellationToken: cancellationToken)
            : batch;
    }

    /// <summary>Waits until the batch is at rest.</summary>
    /// <param name="progress">Told of the batch after each event.</param>
    /// <param name="cancellationToken">Stops waiting, not the batch.</param>
    /// <exception cref="RpcException">The service stays away.</exception>
    public async Task WatchAsync(Action<Batch> progress, CancellationToken cancellationToken)
    {
        var next = 1L;
        var fruitless = 0;
        while (true)
        {
            try
            {
                using var call = service.Batches.WatchBatch(
                    new WatchBatchRequest { Name = plan.Name, StartSequence = next }, cancellationToken: cancellationToken);
                while (await call.ResponseStream.MoveNext(cancellationToken))
                {
                    fruitless = 0;
                    progress(call.ResponseStream.Current.Batch);
                    next = Math.Max(next, call.ResponseStream.Current.Sequence + 1);
                }

                return;
            }
            catch (RpcException failure) when (failure.StatusCode == StatusCode.Unavailable
                && ++fruitless < MostFruitlessRounds)
            {
                await Task.Delay(PauseBetweenRounds, cancellationToken);
            }
        }
    }

    private async Task<Batch> CreateAsync(string displayName, CancellationToken cancellationToken)
    {
        try
        {
            return await service.Batches.CreateBatchAsync(
                new CreateBatchRequest { BatchId = plan.BatchId, Batch = new Batch { DisplayName = displayName } },
                deadline: ServiceConnection.PhotoDeadline(),
                cancellationToken: cancellationToken);
        }
        catch (RpcException failure) when (failure.StatusCode == StatusCode.AlreadyExists)
        {
            return await service.Batches.GetBatchAsync(
                new GetBatchRequest { Name = plan.Name },
                deadline: ServiceConnection.PhotoDeadline(),
                cancellationToken: cancellationToken);
        }
    }

    // A photo that was refused is reported; the panel goes on with the others, if there are any.
    private IEnumerable<BatchItem> Items()
    {
        foreach (var panel in plan.Panels)
        {
            var item = new BatchItem
            {
                Key = panel.Key,
                VehicleRef = panel.Panel.Vehicle,
                Panel = panel.Panel.Panel,
                Facts = new PanelFacts { ExternalRef = panel.Panel.Vehicle },
            };
            item.Photos.Add(panel.Photos.Where(photo => upload.ErrorOf(photo) is null).Select(photo => photo.Name));
            if (item.Photos.Count > 0)
            {
                yield return item;
            }
        }
    }
}
