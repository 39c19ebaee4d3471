using CoatScan.Broker;
using CoatScan.Findings;
using CoatScan.RealServers;

namespace CoatScan.BatchesTests;

/// <summary>A broker that cannot be used is refused at start.</summary>
public sealed class BrokerStartTests(SharedServers servers) : BrokerTest(servers)
{
    [Fact]
    public async Task CheckAsync_broker_that_cannot_be_used_is_named_without_the_password()
    {
        var settings = HandOuts.Settings(1);
        var nowhere = new UriBuilder(settings.Uri) { Port = ServerProcess.FreePort() }.Uri;
        var stranger = new UriBuilder(settings.Uri) { Password = "wrong-secret" }.Uri;
        var elsewhere = new UriBuilder(settings.Uri) { Path = "elsewhere" }.Uri;

        Assert.Equal("it cannot be reached", await WhyAsync(settings with { Uri = nowhere }));
        Assert.Equal("it refuses the user or the password", await WhyAsync(settings with { Uri = stranger }));
        Assert.Contains("vhost", await WhyAsync(settings with { Uri = elsewhere }), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Queue_of_another_kind_under_our_name_is_refused_at_start()
    {
        await using (var channel = await OpenChannelAsync())
        {
            await channel.QueueDeclareAsync(Names.Items, durable: true, exclusive: false, autoDelete: false);
        }

        Assert.Contains("PRECONDITION_FAILED", await WhyAsync(HandOuts.Settings(1)), StringComparison.Ordinal);
    }

    private static async Task<string> WhyAsync(BrokerSettings settings)
    {
        await using var connection = new BrokerConnection(settings);
        var error = await Assert.ThrowsAsync<CoatScanException>(() => connection.CheckAsync(None));
        Assert.StartsWith($"The broker 127.0.0.1:{settings.Uri.Port} cannot be used: ", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", error.Message, StringComparison.Ordinal);
        Assert.False(connection.IsOpen);
        return error.Metadata["why"];
    }
}
