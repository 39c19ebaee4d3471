using System.Globalization;
using CoatScan.Findings;
using CoatScan.Service.Access;
using CoatScan.Service.Batches;
using CoatScan.Service.Options;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Endpoints;

/// <summary>
/// The lane of calls: lets a bounded number of photos be worked on at a time, and refuses when too many of them, or too many pixels, wait.
/// Batches have a lane of their own, <see cref="BatchLane"/>, which yields to this one.
/// </summary>
/// <remarks>
/// A call whose deadline cannot be met any more is refused before its photo is decoded: when it comes, if those before it take too long even
/// at the quickest pace seen of late; and when its turn comes, if what is left is less than the quickest call took.
/// </remarks>
internal sealed class AnalysisGate(
    IOptions<AnalysisOptions> options, BatchLane batches, WaitEstimate estimate, TimeProvider clock) : IDisposable
{
    private readonly SemaphoreSlim _workers = new(options.Value.EffectiveWorkers);
    private readonly int _workerCount = options.Value.EffectiveWorkers;
    private readonly int _queueLength = options.Value.EffectiveQueueLength;
    private readonly double _queueMegapixels = options.Value.EffectiveMegapixelsWaiting;
    private readonly Lock _lock = new();
    private int _waiting;
    private double _waitingMegapixels;

    /// <summary>Runs work of the processor on a worker; waits in the queue if there is room.</summary>
    /// <exception cref="CoatScanException">SERVER_BUSY: every worker is busy and the queue is full. DEADLINE_TOO_SHORT.</exception>
    public Task<T> RunAsync<T>(Func<T> work, PhotoDemand demand, CancellationToken cancellationToken) =>
        RunAsync(work, demand, refuseWhenFull: true, cancellationToken);

    /// <summary>Runs work of the processor on a worker; waits as long as it takes: the caller bounds itself.</summary>
    /// <exception cref="CoatScanException">DEADLINE_TOO_SHORT.</exception>
    public Task<T> RunWhenFreeAsync<T>(Func<T> work, PhotoDemand demand, CancellationToken cancellationToken) =>
        RunAsync(work, demand, refuseWhenFull: false, cancellationToken);

    /// <inheritdoc />
    public void Dispose() => _workers.Dispose();

    private async Task<T> RunAsync<T>(Func<T> work, PhotoDemand demand, bool refuseWhenFull, CancellationToken cancellationToken)
    {
        batches.CallComes();
        try
        {
            return await RunAmongCallsAsync(work, demand, refuseWhenFull, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            batches.CallLeaves();
        }
    }

    private async Task<T> RunAmongCallsAsync<T>(
        Func<T> work, PhotoDemand demand, bool refuseWhenFull, CancellationToken cancellationToken)
    {
        if (!await _workers.WaitAsync(TimeSpan.Zero, CancellationToken.None).ConfigureAwait(false))
        {
            await WaitAsync(demand, refuseWhenFull, cancellationToken).ConfigureAwait(false);
        }

        try
        {
            RequireTime(demand, before: 0);
            var start = clock.GetTimestamp();
            var answer = await Task.Run(work, cancellationToken).ConfigureAwait(false);
            estimate.Served(clock.GetElapsedTime(start));
            return answer;
        }
        finally
        {
            _workers.Release();
        }
    }

    private async Task WaitAsync(PhotoDemand demand, bool refuseWhenFull, CancellationToken cancellationToken)
    {
        var before = JoinQueue(demand, refuseWhenFull);
        try
        {
            RequireTime(demand, before);
            var start = clock.GetTimestamp();
            await _workers.WaitAsync(cancellationToken).ConfigureAwait(false);
            estimate.Waited(clock.GetElapsedTime(start));
        }
        finally
        {
            LeaveQueue(demand);
        }
    }

    // How many wait before it.
    private int JoinQueue(PhotoDemand demand, bool refuseWhenFull)
    {
        lock (_lock)
        {
            // A single photo may wait, however large: alone it could never come otherwise.
            var full = _waiting >= _queueLength || (_waiting > 0 && _waitingMegapixels + demand.Megapixels > _queueMegapixels);
            if (full && refuseWhenFull)
            {
                throw Busy();
            }

            _waitingMegapixels += demand.Megapixels;
            return _waiting++;
        }
    }

    private void LeaveQueue(PhotoDemand demand)
    {
        lock (_lock)
        {
            _waiting--;
            _waitingMegapixels = _waiting == 0 ? 0 : _waitingMegapixels - demand.Megapixels;
        }
    }

    private void RequireTime(PhotoDemand demand, int before)
    {
        if (demand.Deadline == DateTime.MaxValue)
        {
            return;
        }

        var quickest = estimate.QuickestService;
        var left = demand.Deadline - clock.GetUtcNow().UtcDateTime;
        var needed = quickest * ((before / _workerCount) + 1);
        if (left < needed)
        {
            throw new CoatScanException(
                ErrorReason.DeadlineTooShort,
                $"The deadline leaves {Milliseconds(left)} ms; of late no call took less than {Milliseconds(needed)} ms. Nothing was begun.",
                metadata: new Dictionary<string, string> { ["left_ms"] = Milliseconds(left), ["needed_ms"] = Milliseconds(needed) });
        }
    }

    private CoatScanException Busy() => new(
        ErrorReason.ServerBusy,
        $"Every worker is busy, and {_waiting} requests with {Text(_waitingMegapixels)} megapixels wait; try again after the delay.",
        metadata: new Dictionary<string, string>
        {
            ["waiting"] = Text(_waiting),
            ["queue_length"] = Text(_queueLength),
            ["waiting_megapixels"] = Text(_waitingMegapixels),
            ["queue_megapixels"] = Text(_queueMegapixels),
            [TenantQuotas.RetryAfterKey] = Milliseconds(estimate.RetryDelay()),
        });

    private static string Milliseconds(TimeSpan time) => Text(Math.Ceiling(Math.Max(0, time.TotalMilliseconds)));

    private static string Text(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);
}
