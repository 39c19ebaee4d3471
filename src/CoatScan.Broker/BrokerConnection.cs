using System.Collections.Concurrent;
using CoatScan.Findings;
using RabbitMQ.Client;
using RabbitMQ.Client.Exceptions;

namespace CoatScan.Broker;

/// <summary>The one connection of this process, made anew when it breaks.</summary>
/// <remarks>
/// Not the client's own recovery: that brings back channels whose deliveries are no longer ours. A broken connection ends
/// everything on it, and whoever needs one asks here for the next.
/// </remarks>
public sealed class BrokerConnection : IAsyncDisposable
{
    // A broker that went away without a word is noticed after two of them.
    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan ConnectTimeout = TimeSpan.FromSeconds(5);

    // The broker itself waits 5 s for the members of a queue that do not answer before it takes it away.
    private static readonly TimeSpan LongestRemake = TimeSpan.FromSeconds(15);

    // Once may be a broker that is slow at the moment.
    private const int MostSilences = 2;

    private readonly SemaphoreSlim _one = new(1, 1);
    private readonly ConnectionFactory _factory;
    private readonly ConcurrentDictionary<string, int> _silences = [];
    private IConnection? _connection;

    /// <summary>Opens nothing yet.</summary>
    /// <param name="settings">Which broker.</param>
    public BrokerConnection(BrokerSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Settings = settings;
        _factory = new ConnectionFactory
        {
            Uri = settings.Uri,
            AutomaticRecoveryEnabled = false,
            TopologyRecoveryEnabled = false,
            RequestedHeartbeat = Heartbeat,
            RequestedConnectionTimeout = ConnectTimeout,
            ContinuationTimeout = LongestRemake,
            ClientProvidedName = "coatscan",
        };
    }

    /// <summary>Whether the connection stands; false before the first and while the broker is away.</summary>
    public bool IsOpen => _connection is { IsOpen: true };

    internal BrokerSettings Settings { get; }

    /// <summary>Connects and declares what is ours, or says in one sentence why that cannot be.</summary>
    /// <exception cref="CoatScanException">STORAGE_UNAVAILABLE: the broker cannot be used.</exception>
    public async Task CheckAsync(CancellationToken cancellationToken)
    {
        try
        {
            await GetAsync(cancellationToken).ConfigureAwait(false);
        }
        catch (Exception error) when (WhyUnusable(error) is not null)
        {
            throw new CoatScanException(
                ErrorReason.StorageUnavailable,
                $"The broker {Settings.Place} cannot be used: {WhyUnusable(error)}.",
                metadata: new Dictionary<string, string> { ["place"] = Settings.Place, ["why"] = WhyUnusable(error)! },
                inner: error);
        }
    }

    /// <summary>The connection, with everything declared on it.</summary>
    internal async Task<IConnection> GetAsync(CancellationToken cancellationToken)
    {
        await _one.WaitAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            if (_connection is { IsOpen: true } open)
            {
                return open;
            }

            if (_connection is { } broken)
            {
                _connection = null;
                await broken.DisposeAsync().ConfigureAwait(false);
            }

            var connection = await _factory.CreateConnectionAsync(cancellationToken).ConfigureAwait(false);
            try
            {
                await RemoveSilentAsync(connection, cancellationToken).ConfigureAwait(false);
                await Answer.WithinAsync(
                    ConnectTimeout,
                    "its queues",
                    token => DeclareAsync(connection, token),
                    cancellationToken).ConfigureAwait(false);
            }
            catch
            {
                await connection.DisposeAsync().ConfigureAwait(false);
                throw;
            }

            return _connection = connection;
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Notes that a queue did not confirm a message or take a consumer in time.</summary>
    internal void NoteSilence(string queue) => _silences.AddOrUpdate(queue, 1, (_, count) => count + 1);

    /// <summary>Notes that a queue confirmed a message.</summary>
    internal void NoteConfirm(string queue) => _silences.TryRemove(queue, out _);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_connection is { } connection)
        {
            _connection = null;
            await connection.DisposeAsync().ConfigureAwait(false);
        }

        _one.Dispose();
    }

    // A broker that was killed right after a queue was made may come back with one that is there and never answers. Taken away
    // and declared again it works. That costs nothing: messages carry ids only, and the feeder sends again what is ready.
    private async Task RemoveSilentAsync(IConnection connection, CancellationToken cancellationToken)
    {
        foreach (var (queue, count) in _silences)
        {
            if (count >= MostSilences)
            {
                await Answer.WithinAsync(
                    LongestRemake, queue, token => DeleteAsync(connection, queue, token), cancellationToken).ConfigureAwait(false);
                NoteConfirm(queue);
            }
        }
    }

    private static async Task DeleteAsync(IConnection connection, string queue, CancellationToken cancellationToken)
    {
        var channel = await connection.CreateChannelAsync(cancellationToken: cancellationToken).ConfigureAwait(false);
        await using (channel.ConfigureAwait(false))
        {
            await channel.QueueDeleteAsync(queue, ifUnused: false, ifEmpty: false, cancellationToken: cancellationToken)
                .ConfigureAwait(false);
        }
    }

    private async Task DeclareAsync(IConnection connection, CancellationToken cancellationToken)
    {
        var channel = await connection.CreateChannelAsync(cancellationToken: cancellationToken).ConfigureAwait(false);
        await using (channel.ConfigureAwait(false))
        {
            await BrokerTopology.DeclareAsync(channel, Settings, cancellationToken).ConfigureAwait(false);
        }
    }

    private static string? WhyUnusable(Exception error) => error switch
    {
        BrokerUnreachableException { InnerException: AuthenticationFailureException } or AuthenticationFailureException =>
            "it refuses the user or the password",
        OperationInterruptedException { ShutdownReason: { } reason } => $"it answers {reason.ReplyText}",
        RabbitMQClientException or System.Net.Sockets.SocketException or TimeoutException or IOException => "it cannot be reached",
        _ => null,
    };
}
