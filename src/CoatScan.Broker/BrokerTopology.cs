using RabbitMQ.Client;

namespace CoatScan.Broker;

/// <summary>The queues and the exchange; declared at each connect, so that a broker that lost them gets them again.</summary>
internal static class BrokerTopology
{
    /// <summary>
    /// Deliveries of one message that may end without an acknowledgment. A worker acknowledges whatever comes of an item, so
    /// only a process that ends between taking it and claiming it uses one up.
    /// </summary>
    private const int DeliveryLimit = 20;

    // One is enough; a process that starts adds one, in case there is none.
    private const int MostSeats = 8;

    public static async Task DeclareAsync(IChannel channel, BrokerSettings settings, CancellationToken cancellationToken)
    {
        await channel.QueueDeclareAsync(
            settings.GivenUp,
            durable: true,
            exclusive: false,
            autoDelete: false,
            new Dictionary<string, object?> { ["x-queue-type"] = "quorum" },
            cancellationToken: cancellationToken).ConfigureAwait(false);
        await channel.QueueDeclareAsync(
            settings.Items,
            durable: true,
            exclusive: false,
            autoDelete: false,
            new Dictionary<string, object?>
            {
                ["x-queue-type"] = "quorum",
                ["x-delivery-limit"] = DeliveryLimit,
                ["x-dead-letter-exchange"] = "",
                ["x-dead-letter-routing-key"] = settings.GivenUp,
            },
            cancellationToken: cancellationToken).ConfigureAwait(false);
        await channel.QueueDeclareAsync(
            settings.Seat,
            durable: true,
            exclusive: false,
            autoDelete: false,
            new Dictionary<string, object?>
            {
                ["x-queue-type"] = "quorum",
                ["x-single-active-consumer"] = true,
                ["x-max-length"] = MostSeats,
            },
            cancellationToken: cancellationToken).ConfigureAwait(false);
        await channel.ExchangeDeclareAsync(
            settings.Announcements,
            ExchangeType.Topic,
            durable: true,
            autoDelete: false,
            cancellationToken: cancellationToken).ConfigureAwait(false);
    }
}
