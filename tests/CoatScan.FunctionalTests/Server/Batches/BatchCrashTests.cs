using CoatScan.FunctionalTests.CommandLine;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Microsoft.Data.Sqlite;

namespace CoatScan.FunctionalTests.Server.Batches;

/// <summary>A process that is killed in the middle of a batch.</summary>
public sealed class BatchCrashTests : IDisposable
{
    private const int Count = 8;

    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Service_killed_twice_goes_on_by_itself_and_every_item_gets_one_finding()
    {
        var service = await ServiceProcess.StartAsync(_folder.Path);
        var add = new AddBatchItemsRequest { Name = "batches/killed" };
        for (var i = 0; i < Count; i++)
        {
            var photo = await service.Photos.SendAsync(Uploads.Of(BatchSteps.Variant(Panels.Sound, 1000 + i)));
            add.Items.Add(BatchSteps.Item($"item-{i}", "lot", photo.Name));
        }

        await service.Batches.CreateBatchAsync(new CreateBatchRequest { BatchId = "killed" });
        await service.Batches.AddBatchItemsAsync(add);
        await service.Batches.StartBatchAsync(new StartBatchRequest { Name = add.Name });

        var next = 1L;
        foreach (var gradedAtKill in new[] { 1, 3 })
        {
            next = await WatchAsync(service, next, batch => batch.GradedCount >= gradedAtKill);
            await service.DisposeAsync();
            service = await ServiceProcess.StartAsync(_folder.Path);
        }

        await WatchAsync(service, next, batch => batch.State == Batch.Types.State.Succeeded);

        var rest = await service.Batches.GetBatchAsync(new GetBatchRequest { Name = add.Name });
        Assert.Equal((Count, 0), (rest.GradedCount, rest.FailedCount));
        var items = (await service.Batches.ListBatchItemsAsync(new ListBatchItemsRequest { Parent = add.Name })).Items;
        Assert.Equal(Count, items.Select(item => item.Finding).Distinct().Count());
        await service.DisposeAsync();
        Assert.Equal(Count, CountFindings());
    }

    [Fact]
    public async Task Photo_that_ends_its_process_costs_three_attempts_and_its_neighbors_finish()
    {
        var service = await ServiceProcess.StartAsync(_folder.Path);
        var add = new AddBatchItemsRequest { Name = "batches/poison" };
        for (var i = 0; i < 4; i++)
        {
            // The second is large, so that there is time to kill the process while it is worked on.
            var photo = await service.Photos.SendAsync(
                Uploads.Of(i == 1 ? Panels.Large() : BatchSteps.Variant(Panels.Sound, 2000 + i)));
            add.Items.Add(BatchSteps.Item(i == 1 ? "poison" : $"item-{i}", "lot", photo.Name));
        }

        await service.Batches.CreateBatchAsync(new CreateBatchRequest { BatchId = "poison" });
        await service.Batches.AddBatchItemsAsync(add);
        await service.Batches.StartBatchAsync(new StartBatchRequest { Name = add.Name });

        var kills = 0;
        while (await service.Batches.GetBatchAsync(new GetBatchRequest { Name = add.Name }) is { FinishTime: null })
        {
            var running = await service.Batches.ListBatchItemsAsync(
                new ListBatchItemsRequest { Parent = add.Name, States = { BatchItem.Types.State.Running } });
            // A killed attempt still shows as running until its lease is over.
            if (running.Items.Any(item => item.Key == "poison" && item.AttemptCount > kills))
            {
                kills++;
                await service.DisposeAsync();
                service = await ServiceProcess.StartAsync(_folder.Path);
            }
        }

        var items = (await service.Batches.ListBatchItemsAsync(new ListBatchItemsRequest { Parent = add.Name })).Items;
        await service.DisposeAsync();
        Assert.Equal(3, kills);
        var poison = Assert.Single(items, item => item.State == BatchItem.Types.State.Failed);
        Assert.Equal(("poison", 3, "WORKER_LOST"), (poison.Key, poison.AttemptCount, poison.Error.Info().Reason));
        Assert.All(items.Where(item => item != poison), item => Assert.Equal(BatchItem.Types.State.Graded, item.State));
    }

    /// <summary>Watches until the batch is as wanted; every sequence number must come once.</summary>
    private static async Task<long> WatchAsync(ServiceProcess service, long next, Predicate<Batch> wanted)
    {
        using var call = service.Batches.WatchBatch(
            new WatchBatchRequest { Name = "batches/killed", StartSequence = next },
            cancellationToken: TestContext.Current.CancellationToken);
        while (await call.ResponseStream.MoveNext(TestContext.Current.CancellationToken))
        {
            if (call.ResponseStream.Current.Sequence == 0)
            {
                continue;
            }

            Assert.Equal(next++, call.ResponseStream.Current.Sequence);
            if (wanted(call.ResponseStream.Current.Batch))
            {
                return next;
            }
        }

        return next;
    }

    private long CountFindings()
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(_folder.Path, "coatscan.db")};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM findings";
        return (long)command.ExecuteScalar()!;
    }
}
