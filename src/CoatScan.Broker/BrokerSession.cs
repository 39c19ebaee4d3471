using System.Threading.Channels;
using CoatScan.Batches;
using RabbitMQ.Client;
using RabbitMQ.Client.Events;
using RabbitMQ.Client.Exceptions;

namespace CoatScan.Broker;

/// <summary>What one connection carries: taking, giving up, the seat of the feeder, and publishing. Ends with the connection.</summary>
internal sealed class BrokerSession
{
    // Renewed long before a broker with a limit of its own would drop it.
    private const long MostSeatDeliveries = 10;

    private static readonly TimeSpan LongestAnswer = TimeSpan.FromSeconds(5);

    private readonly BrokerConnection _home;
    private readonly BrokerSettings _settings;
    private readonly IConnection _connection;
    private readonly IChannel _consuming;
    private readonly IChannel _publishing;
    private readonly Channel<BrokerItem> _items = Channel.CreateUnbounded<BrokerItem>();
    private readonly Channel<BrokerItem> _givenUp = Channel.CreateUnbounded<BrokerItem>();
    private volatile bool _isClosing;

    private BrokerSession(BrokerConnection home, IConnection connection, IChannel consuming, IChannel publishing)
    {
        _home = home;
        _settings = home.Settings;
        _connection = connection;
        _consuming = consuming;
        _publishing = publishing;
    }

    public bool IsOpen => _connection.IsOpen && _consuming.IsOpen && _publishing.IsOpen;

    /// <summary>Whether this process holds the seat.</summary>
    public bool Feeds { get; private set; }

    /// <summary>Items to work on; completed when the session ends.</summary>
    public ChannelReader<BrokerItem> Items => _items.Reader;

    /// <summary>Items that no process could take; completed when the session ends.</summary>
    public ChannelReader<BrokerItem> GivenUp => _givenUp.Reader;

    public static async Task<BrokerSession> OpenAsync(BrokerConnection home, CancellationToken cancellationToken)
    {
        var connection = await home.GetAsync(cancellationToken).ConfigureAwait(false);
        var consuming = await connection.CreateChannelAsync(cancellationToken: cancellationToken).ConfigureAwait(false);
        // With confirms, a publish ends when a majority of the broker's nodes has the message on disk.
        var publishing = await connection.CreateChannelAsync(
            new CreateChannelOptions(publisherConfirmationsEnabled: true, publisherConfirmationTrackingEnabled: true),
            cancellationToken).ConfigureAwait(false);
        var session = new BrokerSession(home, connection, consuming, publishing);
        connection.ConnectionShutdownAsync += (_, _) => session.EndAsync();
        consuming.ChannelShutdownAsync += (_, _) => session.EndAsync();
        try
        {
            await session.ConsumeAsync(cancellationToken).ConfigureAwait(false);
        }
        catch
        {
            // Whatever it consumes already must not stay with nobody.
            await session.EndAsync().ConfigureAwait(false);
            throw;
        }

        if (!session.IsOpen)
        {
            // Broke before the events were listened to.
            await session.EndAsync().ConfigureAwait(false);
        }

        return session;
    }

    /// <summary>Publishes an item; ends when the broker has it.</summary>
    public Task PublishAsync(ReadyItem item, CancellationToken cancellationToken) =>
        PublishAsync(_settings.Items, ItemMessage.Write(item), cancellationToken);

    /// <summary>Messages that wait and consumers over all processes.</summary>
    public Task<QueueDeclareOk> CountAsync(CancellationToken cancellationToken) =>
        _publishing.QueueDeclarePassiveAsync(_settings.Items, cancellationToken);

    /// <summary>Acknowledges; when the session is over, the broker delivers the message again, which does no harm.</summary>
    public async Task AcknowledgeAsync(ulong tag)
    {
        try
        {
            await _consuming.BasicAckAsync(tag, multiple: false).ConfigureAwait(false);
        }
        catch (Exception error) when (error is AlreadyClosedException or OperationInterruptedException or ObjectDisposedException)
        {
            await EndAsync().ConfigureAwait(false);
        }
    }

    /// <summary>Closes the channels, so that the broker gives what is not acknowledged, and the seat, to other processes.</summary>
    public async Task CloseAsync()
    {
        _isClosing = true;
        await EndAsync().ConfigureAwait(false);
        await _consuming.DisposeAsync().ConfigureAwait(false);
        await _publishing.DisposeAsync().ConfigureAwait(false);
    }

    private async Task ConsumeAsync(CancellationToken cancellationToken)
    {
        // For each consumer, not for the channel: one message a worker.
        await _consuming.BasicQosAsync(0, 1, global: false, cancellationToken).ConfigureAwait(false);
        await PublishAsync(_settings.Seat, ReadOnlyMemory<byte>.Empty, cancellationToken).ConfigureAwait(false);
        await ConsumeAsync(_settings.Seat, SeatAsync, cancellationToken).ConfigureAwait(false);
        await ConsumeAsync(_settings.GivenUp, GivenUpAsync, cancellationToken).ConfigureAwait(false);
        for (var worker = 0; worker < _settings.Workers; worker++)
        {
            await ConsumeAsync(_settings.Items, ItemAsync, cancellationToken).ConfigureAwait(false);
        }
    }

    private async Task ConsumeAsync(
        string queue, AsyncEventHandler<BasicDeliverEventArgs> take, CancellationToken cancellationToken)
    {
        var consumer = new AsyncEventingBasicConsumer(_consuming);
        consumer.ReceivedAsync += take;
        // The queue was deleted, or its node went away: everything is declared again.
        consumer.UnregisteredAsync += (_, _) => EndAsync();
        await AskAsync(
            queue,
            token => _consuming.BasicConsumeAsync(queue, autoAck: false, consumer, token),
            cancellationToken).ConfigureAwait(false);
    }

    private async Task ItemAsync(object sender, BasicDeliverEventArgs message)
    {
        if (ItemMessage.Read(message.Body.Span) is { } item)
        {
            _items.Writer.TryWrite(new BrokerItem(item, this, message.DeliveryTag));
        }
        else
        {
            // Not from us. Nobody can do anything with it.
            await AcknowledgeAsync(message.DeliveryTag).ConfigureAwait(false);
        }
    }

    private async Task GivenUpAsync(object sender, BasicDeliverEventArgs message)
    {
        if (ItemMessage.Read(message.Body.Span) is { } item)
        {
            _givenUp.Writer.TryWrite(new BrokerItem(item, this, message.DeliveryTag));
        }
        else
        {
            await AcknowledgeAsync(message.DeliveryTag).ConfigureAwait(false);
        }
    }

    // Kept without an acknowledgment as long as the session lasts; then the broker gives it to another process.
    private async Task SeatAsync(object sender, BasicDeliverEventArgs message)
    {
        Feeds = true;
        if (message.BasicProperties.Headers?.TryGetValue("x-delivery-count", out var count) == true
            && count is long deliveries && deliveries >= MostSeatDeliveries)
        {
            await PublishAsync(_settings.Seat, ReadOnlyMemory<byte>.Empty, CancellationToken.None).ConfigureAwait(false);
            await AcknowledgeAsync(message.DeliveryTag).ConfigureAwait(false);
        }
    }

    private async Task PublishAsync(string queue, ReadOnlyMemory<byte> body, CancellationToken cancellationToken)
    {
        await AskAsync(
            queue,
            token => _publishing.BasicPublishAsync(
                exchange: "",
                queue,
                mandatory: true,
                new BasicProperties { Persistent = true, ContentType = "application/json" },
                body,
                token).AsTask(),
            cancellationToken).ConfigureAwait(false);
        _home.NoteConfirm(queue);
    }

    // A queue that never answers is there and yet is none. Another connection finds out, and in the end makes it anew.
    private async Task AskAsync(string queue, Func<CancellationToken, Task> ask, CancellationToken cancellationToken)
    {
        try
        {
            await Answer.WithinAsync(LongestAnswer, queue, ask, cancellationToken).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            _home.NoteSilence(queue);
            await EndAsync().ConfigureAwait(false);
            throw;
        }
    }

    // A task because the client's events want one.
    private Task EndAsync()
    {
        Feeds = false;
        _items.Writer.TryComplete();
        _givenUp.Writer.TryComplete();
        if (_connection.IsOpen && !_isClosing)
        {
            // Not awaited to the end: this may run on the connection's own loop.
            _ = _connection.CloseAsync(Constants.InternalError, "session over", TimeSpan.FromSeconds(1), abort: true, CancellationToken.None);
        }

        return Task.CompletedTask;
    }
}
