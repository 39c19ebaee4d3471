using CoatScan.Batches;
using RabbitMQ.Client;

namespace CoatScan.Broker;

/// <summary>Announces what was graded on a topic exchange, as CloudEvents.</summary>
/// <remarks>
/// The routing key is tenant, dot, <c>graded</c> or <c>failed</c>; a program binds a queue of its own to what it wants to
/// hear. An announcement may come twice, with the same source and id, and never gets lost on our side.
/// </remarks>
public sealed class BrokerAnnouncer(BrokerConnection connection) : IAnnouncer, IAsyncDisposable
{
    private static readonly TimeSpan LongestAnswer = TimeSpan.FromSeconds(5);

    private IChannel? _channel;

    /// <inheritdoc/>
    public async Task AnnounceAsync(Announcement announcement, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(announcement);
        if (_channel is not { IsOpen: true })
        {
            if (_channel is not null)
            {
                await _channel.DisposeAsync().ConfigureAwait(false);
            }

            var open = await connection.GetAsync(cancellationToken).ConfigureAwait(false);
            _channel = await open.CreateChannelAsync(
                new CreateChannelOptions(publisherConfirmationsEnabled: true, publisherConfirmationTrackingEnabled: true),
                cancellationToken).ConfigureAwait(false);
        }

        var channel = _channel;
        try
        {
            // Not mandatory: nobody has to listen.
            await Answer.WithinAsync(
                LongestAnswer,
                "an announcement",
                token => channel.BasicPublishAsync(
                    connection.Settings.Announcements,
                    CloudEvent.RoutingKeyOf(announcement),
                    mandatory: false,
                    new BasicProperties { Persistent = true, ContentType = CloudEvent.MediaType },
                    CloudEvent.Write(announcement),
                    token).AsTask(),
                cancellationToken).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            await channel.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_channel is not null)
        {
            await _channel.DisposeAsync().ConfigureAwait(false);
        }
    }
}
