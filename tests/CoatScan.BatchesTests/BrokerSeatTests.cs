using CoatScan.RealServers;

namespace CoatScan.BatchesTests;

/// <summary>One process feeds at a time.</summary>
public sealed class BrokerSeatTests(SharedServers servers) : BrokerTest(servers)
{
    [Fact]
    public async Task Only_one_process_feeds_and_another_takes_over_when_it_ends()
    {
        await RunningAsync(0);
        var first = HandOuts.Connect(1);
        var (one, two) = (HandOuts.Open(first), HandOuts.Open(HandOuts.Connect(1)));
        await one.WaitForRoomAsync(TimeSpan.Zero, None);
        await UntilAsync(() => Task.FromResult(one.Window > 0));
        await two.WaitForRoomAsync(TimeSpan.FromSeconds(1), None);
        Assert.Equal(0, two.Window);

        await first.DisposeAsync();

        await UntilAsync(() => Task.FromResult(two.Window > 0));
        Assert.Equal(0, one.Window);
    }

    [Fact]
    public async Task Seat_that_changed_hands_often_is_not_lost()
    {
        // A newer broker drops a message after 20 deliveries if nothing else is said.
        for (var change = 0; change < 25; change++)
        {
            var connection = HandOuts.Connect(1);
            var handOut = HandOuts.Open(connection);
            await handOut.WaitForRoomAsync(TimeSpan.Zero, None);
            await UntilAsync(() => Task.FromResult(handOut.Window > 0));
            await connection.DisposeAsync();
        }

        await using var channel = await OpenChannelAsync();
        await UntilAsync(async () => (await channel.QueueDeclarePassiveAsync(Names.Seat)).MessageCount > 0);
    }
}
