using CoatScan.Client;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Clients;

/// <summary>Our client over a channel to more than one instance.</summary>
public sealed class SeveralInstancesTests
{
    [Fact]
    public async Task Calls_go_to_both_and_on_to_the_other_when_one_is_gone()
    {
        await using var first = await RunningServer.StartAsync();
        await using var second = await RunningServer.StartAsync();
        using var channel = CoatScanChannel.ForAddresses([first.GrpcAddress, second.GrpcAddress]);
        var findings = new FindingService.FindingServiceClient(channel);

        // The first call may find only one of them connected yet.
        while (await CountAsync(first) == 0 || await CountAsync(second) == 0)
        {
            await RankAsync(findings);
        }

        var before = await CountAsync(second);
        await first.Application.StopAsync(TestContext.Current.CancellationToken);
        for (var i = 0; i < 6; i++)
        {
            await RankAsync(findings);
        }

        Assert.Equal(before + 6, await CountAsync(second));
    }

    [Fact]
    public void Addresses_of_no_or_two_schemes_are_refused() => Assert.All(
        (Uri[][])[[], [new("http://127.0.0.1:1"), new("https://127.0.0.1:2")]],
        addresses => Assert.Throws<ArgumentException>(() => CoatScanChannel.ForAddresses(addresses)));

    [Fact]
    public void Credential_does_not_travel_in_clear_text_to_any_of_them()
    {
        var refusal = Assert.Throws<ArgumentException>(
            () => CoatScanChannel.ForAddresses([new("http://127.0.0.1:1"), new("http://north.example:2")], "coatscan_x"));

        Assert.Contains("north.example", refusal.Message, StringComparison.Ordinal);
    }

    private static async Task RankAsync(FindingService.FindingServiceClient findings) => await findings.RankCausesAsync(
        new RankCausesRequest { Facts = new PanelFacts { Evidence = { "form.domes" } } },
        deadline: TimeProvider.System.GetUtcNow().AddSeconds(30).UtcDateTime);

    private static async Task<int> CountAsync(RunningServer server) =>
        (await server.Findings.ListFindingsAsync(new ListFindingsRequest { PageSize = 500 })).Findings.Count;
}
