using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>Works on batches in this process: one feeder, several workers, a sign of life and a sweeper.</summary>
public sealed class BatchEngine : IAsyncDisposable
{
    private readonly IBatchLedger _ledger;
    private readonly IItemHandOut _handOut;
    private readonly BatchEngineSettings _settings;
    private readonly TimeProvider _clock;
    private readonly Action<Exception> _report;
    private readonly SoloGate _solo;
    private readonly BatchWorker _worker;
    private readonly CancellationTokenSource _stop = new();
    private Task _running = Task.CompletedTask;

    /// <summary>Starts nothing yet.</summary>
    /// <param name="ledger">The truth.</param>
    /// <param name="grader">Makes findings.</param>
    /// <param name="handOut">Carries items from the feeder to the workers.</param>
    /// <param name="tenants">Told whose item is worked on.</param>
    /// <param name="settings">How to work.</param>
    /// <param name="clock">Clock of the waits; when an item is due, the ledger decides.</param>
    /// <param name="report">Told of faults that end no work: the store does not answer, an item fails by a fault of ours.</param>
    public BatchEngine(
        IBatchLedger ledger,
        IItemGrader grader,
        IItemHandOut handOut,
        TenantContext tenants,
        BatchEngineSettings settings,
        TimeProvider clock,
        Action<Exception> report)
    {
        ArgumentNullException.ThrowIfNull(settings);
        _ledger = ledger;
        _handOut = handOut;
        _settings = settings;
        _clock = clock;
        _report = report;
        _solo = new SoloGate(settings.Workers);
        _worker = new BatchWorker(ledger, grader, handOut, _solo, tenants, settings, clock, report);
    }

    /// <summary>Starts to work. Returns at once.</summary>
    public void Start() => _running = Task.WhenAll(
    [
        RepeatAsync(FeedAsync),
        RepeatAsync(SweepAsync),
        RepeatAsync(RenewAsync),
        .. Enumerable.Range(0, _settings.Workers).Select(_ => RepeatAsync(_worker.WorkOnOneAsync)),
    ]);

    /// <summary>Stops: work in progress ends unfinished, and its items go back to the queue as if never taken.</summary>
    public async Task StopAsync()
    {
        await _stop.CancelAsync().ConfigureAwait(false);
        await _running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        try
        {
            await _ledger.GiveBackAsync(_settings.Worker, CancellationToken.None).ConfigureAwait(false);
        }
        catch (Exception fault)
        {
            // Without it the items come back when their leases run out.
            _report(fault);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync().ConfigureAwait(false);
        await _running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _solo.Dispose();
        _stop.Dispose();
    }

    private async Task FeedAsync(CancellationToken cancellationToken)
    {
        foreach (var item in await _ledger.ListReadyAsync(_handOut.Window, cancellationToken).ConfigureAwait(false))
        {
            await _handOut.HandOutAsync(item, cancellationToken).ConfigureAwait(false);
        }

        await _handOut.WaitForRoomAsync(_settings.LookInterval, cancellationToken).ConfigureAwait(false);
    }

    private async Task SweepAsync(CancellationToken cancellationToken)
    {
        await _ledger.SweepAsync(cancellationToken).ConfigureAwait(false);
        await Task.Delay(_settings.LookInterval, _clock, cancellationToken).ConfigureAwait(false);
    }

    private async Task RenewAsync(CancellationToken cancellationToken)
    {
        await Task.Delay(_settings.RenewInterval, _clock, cancellationToken).ConfigureAwait(false);
        await _ledger.RenewAsync(_settings.Worker, _settings.Lease, cancellationToken).ConfigureAwait(false);
    }

    // Whatever goes wrong, and be it for hours, the loop goes on: a store that comes back finds its workers.
    private async Task RepeatAsync(Func<CancellationToken, Task> round)
    {
        var stop = _stop.Token;
        await Task.Yield();
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await round(stop).ConfigureAwait(false);
            }
            catch (Exception fault) when (!stop.IsCancellationRequested)
            {
                _report(fault);
                await Task.Delay(_settings.LookInterval, _clock, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
            catch (Exception) when (stop.IsCancellationRequested)
            {
                return;
            }
        }
    }
}
