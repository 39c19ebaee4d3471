using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>Works on batches in this process: one feeder, several workers, a sign of life and a sweeper.</summary>
public sealed class BatchEngine : IAsyncDisposable
{
    private const int MostAnnouncements = 100;

    private readonly IBatchLedger _ledger;
    private readonly IItemHandOut _handOut;
    private readonly IAnnouncer? _announcer;
    private readonly BatchEngineSettings _settings;
    private readonly TimeProvider _clock;
    private readonly Action<Exception> _report;
    private readonly SoloGate _solo;
    private readonly BatchWorker _worker;
    private readonly CancellationTokenSource _stop = new();
    private Task _running = Task.CompletedTask;
    private IDisposable? _sign;

    /// <summary>Starts nothing yet.</summary>
    /// <param name="ledger">The truth.</param>
    /// <param name="grader">Makes findings.</param>
    /// <param name="handOut">Carries items from the feeder to the workers; the engine's own, disposed with it.</param>
    /// <param name="tenants">Told whose item is worked on.</param>
    /// <param name="settings">How to work.</param>
    /// <param name="clock">Clock of the waits; when an item is due, the ledger decides.</param>
    /// <param name="report">Told of faults that end no work: the store does not answer, an item fails by a fault of ours.</param>
    /// <param name="announcer">Tells other programs what came to rest; null if none want to know.</param>
    public BatchEngine(
        IBatchLedger ledger,
        IItemGrader grader,
        IItemHandOut handOut,
        TenantContext tenants,
        BatchEngineSettings settings,
        TimeProvider clock,
        Action<Exception> report,
        IAnnouncer? announcer = null)
    {
        ArgumentNullException.ThrowIfNull(settings);
        _ledger = ledger;
        _handOut = handOut;
        _announcer = announcer;
        _settings = settings;
        _clock = clock;
        _report = report;
        _solo = new SoloGate(settings.Workers);
        _worker = new BatchWorker(ledger, grader, handOut, _solo, tenants, settings, clock, report);
    }

    /// <summary>Starts to work. Returns at once.</summary>
    public void Start()
    {
        try
        {
            _sign = _ledger.SignOn(_settings.Worker);
        }
        catch (CoatScanException fault)
        {
            // Without it others learn from the leases that this process has ended.
            _report(fault);
        }

        _running = Task.WhenAll(
        [
            RepeatAsync(FeedAsync),
            RepeatAsync(SweepAsync),
            RepeatAsync(RenewAsync),
            RepeatAsync(GiveUpAsync),
            .. _announcer is { } announcer ? [RepeatAsync(token => AnnounceAsync(announcer, token))] : Array.Empty<Task>(),
            .. Enumerable.Range(0, _settings.Workers).Select(_ => RepeatAsync(_worker.WorkOnOneAsync)),
        ]);
    }

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

        await _handOut.DisposeAsync().ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync().ConfigureAwait(false);
        await _running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        await _handOut.DisposeAsync().ConfigureAwait(false);
        _sign?.Dispose();
        _solo.Dispose();
        _stop.Dispose();
    }

    private async Task FeedAsync(CancellationToken cancellationToken)
    {
        if (_handOut.Window is > 0 and var window)
        {
            foreach (var item in await _ledger.ListReadyAsync(window, cancellationToken).ConfigureAwait(false))
            {
                await _handOut.HandOutAsync(item, cancellationToken).ConfigureAwait(false);
            }
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
        if (_worker.Held is { Count: > 0 } held)
        {
            await _ledger.RenewAsync(held, _settings.Lease, cancellationToken).ConfigureAwait(false);
        }
    }

    private async Task GiveUpAsync(CancellationToken cancellationToken)
    {
        var taken = await _handOut.TakeGivenUpAsync(cancellationToken).ConfigureAwait(false);
        await _ledger.GiveUpAsync(taken.Ready, cancellationToken).ConfigureAwait(false);

        // Not in a finally: if the ledger does not answer, it is asked again when the item comes again.
        await _handOut.AcknowledgeAsync(taken).ConfigureAwait(false);
    }

    private async Task AnnounceAsync(IAnnouncer announcer, CancellationToken cancellationToken)
    {
        // The feeder announces too: one process, so that the events of a batch come in order.
        var events = _handOut.Window > 0
            ? await _ledger.ListToAnnounceAsync(MostAnnouncements, cancellationToken).ConfigureAwait(false)
            : [];
        foreach (var batch in events.GroupBy(one => (one.Tenant, one.Event.Batch.Id)))
        {
            foreach (var one in batch.Where(one => one.Event.Item is not null))
            {
                await announcer.AnnounceAsync(one, cancellationToken).ConfigureAwait(false);
            }

            await _ledger.AnnouncedAsync(
                batch.Key.Tenant, batch.Key.Id, batch.Max(one => one.Event.Sequence), cancellationToken).ConfigureAwait(false);
        }

        if (events.Count < MostAnnouncements)
        {
            await Task.Delay(_settings.LookInterval, _clock, cancellationToken).ConfigureAwait(false);
        }
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
