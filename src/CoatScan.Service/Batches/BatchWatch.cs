using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using Grpc.Core;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Batches;

/// <summary>
/// WatchBatch: reads the stored events, some at a time. A slow watcher costs its own connection and nothing else.
/// </summary>
internal sealed class BatchWatch(
    IBatchLedger ledger, CredentialCheck credentials, IHostApplicationLifetime lifetime, TimeProvider clock)
{
    private const int EventsAtOnce = 100;
    private static readonly TimeSpan LookInterval = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan CredentialInterval = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan SignOfLifeInterval = TimeSpan.FromSeconds(15);

    /// <summary>Serves one watcher until the batch is at rest.</summary>
    public async Task RunAsync(
        string batch,
        long startSequence,
        IServerStreamWriter<Wire.WatchBatchResponse> responses,
        HttpContext call,
        CancellationToken cancellationToken)
    {
        if (startSequence < 0)
        {
            throw new CoatScanException(
                ErrorReason.ValueOutOfRange,
                $"start_sequence is {startSequence}; it must be 0 or more.",
                "start_sequence",
                new Dictionary<string, string> { ["value"] = $"{startSequence}", ["min"] = "0" });
        }

        var next = Math.Max(1, startSequence);
        var lastSign = clock.GetTimestamp();
        var lastCheck = lastSign;
        while (true)
        {
            // A watch may last for hours; whoever lost the right to look sees no more than what was on its way.
            if (clock.GetElapsedTime(lastCheck) >= CredentialInterval)
            {
                await credentials.RequireHoldsAsync(call, AccessScope.Read).ConfigureAwait(false);
                lastCheck = clock.GetTimestamp();
            }

            // Before the events: one that comes in between is read in the next round.
            var now = await ledger.GetAsync(batch, cancellationToken).ConfigureAwait(false);
            var events = await ledger.ListEventsAsync(batch, next, EventsAtOnce, cancellationToken).ConfigureAwait(false);
            foreach (var one in events)
            {
                await responses.WriteAsync(ToWire(one, batch), cancellationToken).ConfigureAwait(false);
                next = one.Sequence + 1;
                lastSign = clock.GetTimestamp();
            }

            if (events.Count > 0)
            {
                continue;
            }

            if (now.AtRest && now.LastSequence < next)
            {
                return;
            }

            if (clock.GetElapsedTime(lastSign) >= SignOfLifeInterval)
            {
                var sign = new Wire.WatchBatchResponse { Batch = BatchMapping.ToWire(now) };
                await responses.WriteAsync(sign, cancellationToken).ConfigureAwait(false);
                lastSign = clock.GetTimestamp();
            }

            await WaitAsync(cancellationToken).ConfigureAwait(false);
        }
    }

    private async Task WaitAsync(CancellationToken cancellationToken)
    {
        using var either = CancellationTokenSource.CreateLinkedTokenSource(
            cancellationToken, lifetime.ApplicationStopping);
        await Task.Delay(LookInterval, clock, either.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        cancellationToken.ThrowIfCancellationRequested();
        if (lifetime.ApplicationStopping.IsCancellationRequested)
        {
            throw new CoatScanException(ErrorReason.Draining, "The server is stopping; watch on from the next sequence.");
        }
    }

    private static Wire.WatchBatchResponse ToWire(BatchEvent one, string batch)
    {
        var wire = new Wire.WatchBatchResponse { Sequence = one.Sequence, Batch = BatchMapping.ToWire(one.Batch) };
        if (one.Item is { } item)
        {
            wire.Item = BatchMapping.ToWire(item, batch);
        }

        return wire;
    }
}
