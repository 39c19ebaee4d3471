using System.Threading.Channels;
using CoatScan.Batches;

namespace CoatScan.Broker;

/// <summary>Hands items out to the workers of all processes through quorum queues.</summary>
/// <remarks>
/// Every process works; one of them feeds, whichever holds the message of the seat. Messages carry ids only and may be lost
/// or come twice: the claim in the ledger succeeds once, and what the ledger still shows as ready is offered again.
/// </remarks>
public sealed class BrokerHandOut : IItemHandOut
{
    private const int ItemsPerWorker = 4;

    private static readonly TimeSpan ReconnectDelay = TimeSpan.FromSeconds(1);

    // An empty queue and an item that nobody has claimed for this long: its message is lost.
    private static readonly TimeSpan LostAfter = TimeSpan.FromSeconds(3);

    private readonly BrokerConnection _connection;
    private readonly TimeProvider _clock;
    private readonly Action<Exception> _report;
    private readonly SemaphoreSlim _one = new(1, 1);
    private readonly Channel<byte> _room = Channel.CreateBounded<byte>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    // What the feeder, and it alone, has published and still sees as ready; with the fence, so that an item that was claimed
    // and waits again is another one.
    private readonly Dictionary<(ItemRef Item, long Fence), Published> _out = [];
    private BrokerSession? _session;
    private BrokerSession? _fedSession;
    private bool _isDisposed;
    private int _round;
    private int _window;

    /// <summary>Connects to nothing yet.</summary>
    /// <param name="connection">The connection of this process.</param>
    /// <param name="clock">Clock of the waits.</param>
    /// <param name="report">Told when the broker goes away, once each time.</param>
    public BrokerHandOut(BrokerConnection connection, TimeProvider clock, Action<Exception> report)
    {
        ArgumentNullException.ThrowIfNull(connection);
        _connection = connection;
        _clock = clock;
        _report = report;
        _window = ItemsPerWorker * connection.Settings.Workers;
    }

    /// <inheritdoc/>
    public int Window => _session is { IsOpen: true, Feeds: true } ? _window : 0;

    /// <inheritdoc/>
    public async ValueTask HandOutAsync(ReadyItem item, CancellationToken cancellationToken)
    {
        if (_session is not { IsOpen: true, Feeds: true } session)
        {
            return;
        }

        if (session != _fedSession)
        {
            // A seat just taken: what was out then is another process's knowledge, or of a broker of before.
            _fedSession = session;
            _out.Clear();
        }

        var key = (item.Item, item.Fence);
        if (_out.TryGetValue(key, out var known))
        {
            _out[key] = known with { Round = _round };
        }
        else if (_out.Count < _window)
        {
            await session.PublishAsync(item, cancellationToken).ConfigureAwait(false);
            _out.Add(key, new Published(_round, _clock.GetTimestamp()));
        }
    }

    /// <inheritdoc/>
    public ValueTask<TakenItem> TakeAsync(CancellationToken cancellationToken) =>
        NextAsync(session => session.Items, cancellationToken);

    /// <inheritdoc/>
    public ValueTask<TakenItem> TakeGivenUpAsync(CancellationToken cancellationToken) =>
        NextAsync(session => session.GivenUp, cancellationToken);

    /// <inheritdoc/>
    public async ValueTask AcknowledgeAsync(TakenItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        var taken = (BrokerItem)item;
        await taken.Session.AcknowledgeAsync(taken.Tag).ConfigureAwait(false);
        _room.Writer.TryWrite(0);
    }

    /// <inheritdoc/>
    public async Task WaitForRoomAsync(TimeSpan longest, CancellationToken cancellationToken)
    {
        await SessionAsync(cancellationToken).ConfigureAwait(false);
        using (var wait = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken))
        {
            Task room = _room.Reader.WaitToReadAsync(wait.Token).AsTask();
            await Task.WhenAny(room, Task.Delay(longest, _clock, wait.Token)).ConfigureAwait(false);
            await wait.CancelAsync().ConfigureAwait(false);
            await room.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            _room.Reader.TryRead(out _);
            cancellationToken.ThrowIfCancellationRequested();
        }

        if (_session is { IsOpen: true, Feeds: true } session)
        {
            await EndRoundAsync(session, cancellationToken).ConfigureAwait(false);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_isDisposed)
        {
            return;
        }

        _isDisposed = true;
        if (_session is { } session)
        {
            await session.CloseAsync().ConfigureAwait(false);
        }
    }

    // Forgets what the ledger no longer shows as ready, and what is lost.
    private async Task EndRoundAsync(BrokerSession session, CancellationToken cancellationToken)
    {
        var count = await session.CountAsync(cancellationToken).ConfigureAwait(false);
        _window = ItemsPerWorker * Math.Max(1, (int)count.ConsumerCount);
        foreach (var (key, published) in _out.ToList())
        {
            if (published.Round < _round
                || (count.MessageCount == 0 && _clock.GetElapsedTime(published.Timestamp) > LostAfter))
            {
                _out.Remove(key);
            }
        }

        _round++;
    }

    private async ValueTask<TakenItem> NextAsync(
        Func<BrokerSession, ChannelReader<BrokerItem>> of, CancellationToken cancellationToken)
    {
        while (true)
        {
            var session = await SessionAsync(cancellationToken).ConfigureAwait(false);
            var reader = of(session);
            while (await reader.WaitToReadAsync(cancellationToken).ConfigureAwait(false))
            {
                if (reader.TryRead(out var item))
                {
                    return item;
                }
            }
        }
    }

    /// <summary>The session; while the broker is away, waits until it is back.</summary>
    private async Task<BrokerSession> SessionAsync(CancellationToken cancellationToken)
    {
        await _one.WaitAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            ObjectDisposedException.ThrowIf(_isDisposed, this);
            for (var isFirst = true; ; isFirst = false)
            {
                if (_session is { IsOpen: true } open)
                {
                    return open;
                }

                try
                {
                    _session = await BrokerSession.OpenAsync(_connection, cancellationToken).ConfigureAwait(false);
                }
                catch (Exception error) when (!cancellationToken.IsCancellationRequested)
                {
                    if (isFirst)
                    {
                        _report(error);
                    }

                    await Task.Delay(ReconnectDelay, _clock, cancellationToken).ConfigureAwait(false);
                }
            }
        }
        finally
        {
            _one.Release();
        }
    }

    private readonly record struct Published(int Round, long Timestamp);
}
