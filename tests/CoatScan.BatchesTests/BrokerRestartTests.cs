using CoatScan.Broker;
using CoatScan.RealServers;
using RabbitMQ.Client;

namespace CoatScan.BatchesTests;

/// <summary>The broker ends in the middle of a batch.</summary>
public sealed class BrokerRestartTests(SharedServers servers) : BrokerTest(servers)
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Broker_that_ends_in_mid_batch_and_comes_back_costs_no_item(bool kill)
    {
        const int count = 200;
        await using var server = await SharedServers.OwnRabbitAsync();
        await using var handOuts = BrokerHandOuts.On(server);
        await RunningAsync(count);
        var grader = new FakeGrader(_ => Task.Delay(100, None));
        await using var engine = Engine(2, grader, handOuts.Open(2));
        engine.Start();
        await UntilAsync(() => Task.FromResult(grader.Count >= 10));

        // The broker notes a new queue on disk when its register has been idle for 500 ms (ra_directory: dets, auto_save). Killed
        // before, it is another case, with a test of its own.
        await Task.Delay(TimeSpan.FromSeconds(5), None);
        await (kill ? server.KillAsync() : server.StopAsync());
        await UntilAsync(() => Task.FromResult(!handOuts.Reports.IsEmpty));
        await server.StartAgainAsync();

        var rest = await RestAsync();
        await engine.StopAsync();
        Assert.Equal((count, 0), (rest.GradedCount, rest.FailedCount));
        Assert.Equal(count, Store.CountFindings());
    }

    [Fact]
    public async Task Broker_killed_right_after_its_queues_were_made_grades_the_batch_all_the_same()
    {
        const int mostKills = 5;
        await using var server = await SharedServers.OwnRabbitAsync();
        await using var handOuts = BrokerHandOuts.On(server);
        var isSilent = false;
        for (var kill = 0; kill < mostKills && !isSilent; kill++)
        {
            await handOuts.Connect(1).CheckAsync(None);
            await server.KillAsync();
            await server.StartAgainAsync();
            isSilent = await IsSilentAsync(handOuts.Settings(1));
        }

        Assert.SkipUnless(isSilent, $"This broker kept its new queues over {mostKills} kills.");
        await RunningAsync(6);
        await using var engine = Engine(1, new FakeGrader(_ => Task.CompletedTask), handOuts.Open(1));
        engine.Start();
        var rest = await RestAsync();
        await engine.StopAsync();

        Assert.Equal(6, rest.GradedCount);
        Assert.Contains(handOuts.Reports, report => report is TimeoutException);
        Assert.False(await IsSilentAsync(handOuts.Settings(1)));
    }

    // Whether a message to the seat, which is declared last, is not confirmed; a broker that is well does it in milliseconds.
    private static async Task<bool> IsSilentAsync(BrokerSettings settings)
    {
        await using var connection = await new ConnectionFactory
        {
            Uri = settings.Uri,
            ContinuationTimeout = TimeSpan.FromSeconds(1),
        }.CreateConnectionAsync();
        await using var channel = await connection.CreateChannelAsync(
            new CreateChannelOptions(publisherConfirmationsEnabled: true, publisherConfirmationTrackingEnabled: true));
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(5));
        try
        {
            await channel.BasicPublishAsync("", $"{settings.Prefix}.feeder", ReadOnlyMemory<byte>.Empty, limit.Token);
            return false;
        }
        catch (OperationCanceledException)
        {
            return true;
        }
    }
}
