using CoatScan.Batches;
using CoatScan.Broker;
using CoatScan.Service.Options;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Batches;

/// <summary>What carries items of batches to workers: nothing outside of this process, or a broker.</summary>
internal sealed class BatchCarrier : IAsyncDisposable
{
    private readonly int _workers;
    private readonly TimeProvider _clock;
    private readonly BrokerConnection? _broker;
    private BrokerAnnouncer? _announcer;

    /// <summary>Connects to nothing yet.</summary>
    public BatchCarrier(IOptions<BatchOptions> batches, IOptions<BrokerOptions> broker, TimeProvider clock)
    {
        _workers = batches.Value.EffectiveWorkers;
        _clock = clock;
        _broker = batches.Value.UsesBroker ? new BrokerConnection(broker.Value.ToSettings(_workers)) : null;
    }

    /// <summary>Whether a broker is needed and does not answer at the moment.</summary>
    public bool IsBroken => _broker is { IsOpen: false };

    /// <summary>Connects to the broker, if one is needed.</summary>
    public Task CheckAsync(CancellationToken cancellationToken) =>
        _broker?.CheckAsync(cancellationToken) ?? Task.CompletedTask;

    /// <summary>The hand-out of this process.</summary>
    /// <param name="report">Told when the broker goes away.</param>
    public IItemHandOut HandOut(Action<Exception> report) => _broker is null
        ? new ChannelHandOut(_workers, _clock)
        : new BrokerHandOut(_broker, _clock, report);

    /// <summary>Tells other programs; null without a broker.</summary>
    public IAnnouncer? Announcer() => _broker is null ? null : _announcer ??= new BrokerAnnouncer(_broker);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_announcer is not null)
        {
            await _announcer.DisposeAsync().ConfigureAwait(false);
        }

        if (_broker is not null)
        {
            await _broker.DisposeAsync().ConfigureAwait(false);
        }
    }
}
