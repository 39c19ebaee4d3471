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

    private readonly SemaphoreSlim _one = new(1, 1);
    private readonly ConnectionFactory _factory;
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
            ContinuationTimeout = ConnectTimeout,
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
                var channel = await connection.CreateChannelAsync(cancellationToken: cancellationToken).ConfigureAwait(false);
                await using (channel.ConfigureAwait(false))
                {
                    await BrokerTopology.DeclareAsync(channel, Settings, cancellationToken).ConfigureAwait(false);
                }
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

    private static string? WhyUnusable(Exception error) => error switch
    {
        BrokerUnreachableException { InnerException: AuthenticationFailureException } or AuthenticationFailureException =>
            "it refuses the user or the password",
        OperationInterruptedException { ShutdownReason: { } reason } => $"it answers {reason.ReplyText}",
        RabbitMQClientException or System.Net.Sockets.SocketException or TimeoutException or IOException => "it cannot be reached",
        _ => null,
    };
}
