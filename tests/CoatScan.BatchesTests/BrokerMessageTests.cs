using System.Text;
using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.RealServers;
using RabbitMQ.Client;

namespace CoatScan.BatchesTests;

/// <summary>Messages that get lost, that nobody can use and that nobody could deliver.</summary>
public sealed class BrokerMessageTests(SharedServers servers) : BrokerTest(servers)
{
    [Fact]
    public async Task Messages_that_get_lost_are_sent_again()
    {
        await RunningAsync(4);
        var release = new TaskCompletionSource();
        var grader = new FakeGrader(_ => release.Task);
        await using var engine = Engine(1, grader, HandOuts.Open(1));
        engine.Start();
        await using var channel = await OpenChannelAsync();
        // One is with the worker, three wait in the queue.
        await UntilAsync(async () =>
            grader.Count == 1 && (await channel.QueueDeclarePassiveAsync(Names.Items)).MessageCount == 3);

        Assert.Equal(3u, await channel.QueuePurgeAsync(Names.Items));
        release.SetResult();

        Assert.Equal(4, (await RestAsync()).GradedCount);
        await engine.StopAsync();
    }

    [Fact]
    public async Task Queue_that_is_deleted_is_made_again()
    {
        await RunningAsync(6);
        var release = new TaskCompletionSource();
        var grader = new FakeGrader(_ => release.Task);
        await using var engine = Engine(1, grader, HandOuts.Open(1));
        engine.Start();
        await UntilAsync(() => Task.FromResult(grader.Count == 1));

        await using (var channel = await OpenChannelAsync())
        {
            await channel.QueueDeleteAsync(Names.Items);
        }

        release.SetResult();
        Assert.Equal(6, (await RestAsync()).GradedCount);
        await engine.StopAsync();
    }

    [Fact]
    public async Task Message_that_is_none_of_ours_is_dropped()
    {
        await RunningAsync(0);
        await using var engine = Engine(1, new FakeGrader(_ => Task.CompletedTask), HandOuts.Open(1));
        engine.Start();
        await using var channel = await OpenChannelAsync();
        await UntilAsync(() => ExistsAsync(Names.Items));

        foreach (var body in new[] { "", "{", "{}", "null", """{"tenant":"a/b","batch":"b","key":"k","suspect":false,"fence":1}""" })
        {
            await channel.BasicPublishAsync("", Names.Items, Encoding.UTF8.GetBytes(body));
            await channel.BasicPublishAsync("", Names.GivenUp, Encoding.UTF8.GetBytes(body));
        }

        await RunningAsync(3, "after");
        await UntilAsync(async () => (await Ledger.GetAsync("after", None)).GradedCount == 3);
        await engine.StopAsync();
        await HandOuts.DisposeAsync();
        Assert.Equal(0u, (await channel.QueueDeclarePassiveAsync(Names.Items)).MessageCount);
        Assert.Equal(0u, (await channel.QueueDeclarePassiveAsync(Names.GivenUp)).MessageCount);
    }

    [Fact]
    public async Task Item_whose_every_process_ends_before_it_claims_it_fails_with_worker_lost()
    {
        await RunningAsync(1);
        var ready = (await Ledger.ListReadyAsync(1, None)).Single();
        await HandOuts.Connect(1).CheckAsync(None);
        await using (var channel = await OpenChannelAsync())
        {
            await channel.BasicPublishAsync(
                "",
                Names.Items,
                Encoding.UTF8.GetBytes($$"""{"tenant":"local","batch":"lots","key":"{{ready.Item.Key}}","suspect":false,"fence":0}"""));
            // As processes that end with the message in hand.
            var deliveries = 0;
            while ((await channel.QueueDeclarePassiveAsync(Names.GivenUp)).MessageCount == 0)
            {
                if (await channel.BasicGetAsync(Names.Items, autoAck: false) is { } message)
                {
                    deliveries++;
                    await channel.BasicNackAsync(message.DeliveryTag, multiple: false, requeue: true);
                }
            }

            Assert.Equal(21, deliveries);
        }

        // It works on nothing, but closes what nobody could claim.
        await using var engine = Engine(1, new FakeGrader(_ => Task.Delay(Timeout.Infinite, None)), new NeverReady(HandOuts.Open(1)));
        engine.Start();
        var rest = await RestAsync();
        await engine.StopAsync();

        var item = (await Ledger.ListItemsAsync("lots", [], 0, "", None)).Rows.Single();
        Assert.Equal((ItemState.Failed, ErrorReason.WorkerLost), (item.State, item.Error!.Reason));
        Assert.Equal(1, rest.FailedCount);
    }

    private async Task<bool> ExistsAsync(string queue)
    {
        try
        {
            await using var channel = await OpenChannelAsync();
            await channel.QueueDeclarePassiveAsync(queue);
            return true;
        }
        catch (RabbitMQ.Client.Exceptions.OperationInterruptedException)
        {
            return false;
        }
    }

    /// <summary>A process that feeds nothing and takes nothing.</summary>
    private sealed class NeverReady(IItemHandOut inner) : IItemHandOut
    {
        public int Window => 0;

        public ValueTask HandOutAsync(ReadyItem item, CancellationToken cancellationToken) => ValueTask.CompletedTask;

        public async ValueTask<TakenItem> TakeAsync(CancellationToken cancellationToken)
        {
            await Task.Delay(Timeout.Infinite, cancellationToken);
            throw new OperationCanceledException(cancellationToken);
        }

        public ValueTask<TakenItem> TakeGivenUpAsync(CancellationToken cancellationToken) =>
            inner.TakeGivenUpAsync(cancellationToken);

        public ValueTask AcknowledgeAsync(TakenItem item) => inner.AcknowledgeAsync(item);

        public Task WaitForRoomAsync(TimeSpan longest, CancellationToken cancellationToken) =>
            Task.Delay(longest, cancellationToken);

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}
