using CoatScan.Batches;
using CoatScan.RealServers;
using RabbitMQ.Client;

namespace CoatScan.BatchesTests;

/// <summary>A test against a real broker and a ledger of its own.</summary>
public abstract class BrokerTest(SharedServers servers) : IAsyncLifetime
{
    private protected static readonly CancellationToken None = CancellationToken.None;

    private IConnection? _outsider;

    private protected LedgerUnderTest Store { get; private set; } = null!;

    private protected BrokerHandOuts HandOuts { get; private set; } = null!;

    private protected IBatchLedger Ledger => Store.Ledger;

    private protected (string Items, string GivenUp, string Seat, string Announcements) Names
    {
        get
        {
            var prefix = HandOuts.Settings(1).Prefix;
            return ($"{prefix}.items", $"{prefix}.given-up", $"{prefix}.feeder", $"{prefix}.findings");
        }
    }

    public async ValueTask InitializeAsync()
    {
        HandOuts = await BrokerHandOuts.OpenAsync(servers);
        Store = await SqliteLedger.OpenAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (_outsider is not null)
        {
            await _outsider.DisposeAsync();
        }

        if (HandOuts is not null)
        {
            await HandOuts.DisposeAsync();
            await Store.DisposeAsync();
        }

        GC.SuppressFinalize(this);
    }

    private protected async Task<IChannel> OpenChannelAsync()
    {
        _outsider ??= await new ConnectionFactory { Uri = HandOuts.Settings(1).Uri }.CreateConnectionAsync();
        return await _outsider.CreateChannelAsync();
    }

    private protected BatchEngine Engine(int workers, FakeGrader grader, IItemHandOut handOut, IAnnouncer? announcer = null) => new(
        Ledger,
        grader,
        handOut,
        Store.Tenants,
        new BatchEngineSettings("engine", workers) { LookInterval = TimeSpan.FromMilliseconds(20) },
        TimeProvider.System,
        fault => TestContext.Current.TestOutputHelper?.WriteLine(fault.Message),
        announcer);

    private protected async Task RunningAsync(int items, string batch = "lots")
    {
        await Ledger.CreateAsync(batch, "", null, None);
        await Ledger.AddItemsAsync(batch, Samples.Items(items), None);
        await Ledger.StartAsync(batch, null, None);
    }

    private protected async Task<Batch> RestAsync()
    {
        await UntilAsync(async () => (await Ledger.GetAsync("lots", None)).AtRest);
        return await Ledger.GetAsync("lots", None);
    }

    private protected static async Task UntilAsync(Func<Task<bool>> holds)
    {
        while (!await holds())
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }
}
