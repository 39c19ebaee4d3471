using System.Collections.Concurrent;
using CoatScan.Batches;
using CoatScan.Broker;
using CoatScan.RealServers;

namespace CoatScan.BatchesTests;

/// <summary>A connection to a real RabbitMQ broker for each process, on queues of the test's own.</summary>
public sealed class BrokerHandOuts : HandOutUnderTest
{
    private static int _number;

    private readonly RabbitServer _server;
    private readonly string _prefix = $"test{Interlocked.Increment(ref _number)}";
    private readonly List<IAsyncDisposable> _open = [];

    private BrokerHandOuts(RabbitServer server) => _server = server;

    /// <summary>What was told when the broker went away.</summary>
    public ConcurrentQueue<Exception> Reports { get; } = new();

    public static async Task<BrokerHandOuts> OpenAsync(SharedServers servers) => new(await servers.RabbitAsync());

    public static BrokerHandOuts On(RabbitServer server) => new(server);

    /// <summary>The settings of a process.</summary>
    public BrokerSettings Settings(int workers) => new(_server.Uri, _prefix, workers);

    /// <summary>The connection of a process.</summary>
    public BrokerConnection Connect(int workers)
    {
        var connection = new BrokerConnection(Settings(workers));
        _open.Add(connection);
        return connection;
    }

    public override IItemHandOut Open(int workers) => Open(Connect(workers));

    public BrokerHandOut Open(BrokerConnection connection)
    {
        var handOut = new BrokerHandOut(connection, TimeProvider.System, Reports.Enqueue);
        _open.Add(handOut);
        return handOut;
    }

    public override async ValueTask DisposeAsync()
    {
        foreach (var one in Enumerable.Reverse(_open))
        {
            await one.DisposeAsync();
        }
    }
}
