using CoatScan.Findings;
using CoatScan.Service.Batches;
using CoatScan.Service.Options;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Endpoints;

/// <summary>
/// The lane of calls: lets a bounded number of photos be worked on at a time and refuses when too many wait. Batches have a
/// lane of their own, <see cref="BatchLane"/>, which yields to this one.
/// </summary>
internal sealed class AnalysisGate(IOptions<AnalysisOptions> options, BatchLane batches) : IDisposable
{
    private readonly SemaphoreSlim _workers = new(options.Value.EffectiveWorkers);
    private readonly int _queueLength = options.Value.QueueLength;
    private int _waiting;

    /// <summary>Runs work of the processor on a worker; waits in the queue if there is room.</summary>
    /// <exception cref="CoatScanException">SERVER_BUSY: every worker is busy and the queue is full.</exception>
    public Task<T> RunAsync<T>(Func<T> work, CancellationToken cancellationToken) =>
        RunAsync(work, refuseWhenFull: true, cancellationToken);

    /// <summary>Runs work of the processor on a worker; waits as long as it takes: the caller bounds itself.</summary>
    public Task<T> RunWhenFreeAsync<T>(Func<T> work, CancellationToken cancellationToken) =>
        RunAsync(work, refuseWhenFull: false, cancellationToken);

    /// <inheritdoc />
    public void Dispose() => _workers.Dispose();

    private async Task<T> RunAsync<T>(Func<T> work, bool refuseWhenFull, CancellationToken cancellationToken)
    {
        batches.CallComes();
        try
        {
            return await RunAmongCallsAsync(work, refuseWhenFull, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            batches.CallLeaves();
        }
    }

    private async Task<T> RunAmongCallsAsync<T>(
        Func<T> work, bool refuseWhenFull, CancellationToken cancellationToken)
    {
        if (!await _workers.WaitAsync(TimeSpan.Zero, CancellationToken.None).ConfigureAwait(false))
        {
            await WaitAsync(refuseWhenFull, cancellationToken).ConfigureAwait(false);
        }

        try
        {
            return await Task.Run(work, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            _workers.Release();
        }
    }

    private async Task WaitAsync(bool refuseWhenFull, CancellationToken cancellationToken)
    {
        try
        {
            if (Interlocked.Increment(ref _waiting) > _queueLength && refuseWhenFull)
            {
                throw new CoatScanException(
                    ErrorReason.ServerBusy,
                    $"Every worker is busy and {_queueLength} requests wait; try again after the delay.",
                    metadata: new Dictionary<string, string> { ["queue_length"] = $"{_queueLength}" });
            }

            await _workers.WaitAsync(cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            Interlocked.Decrement(ref _waiting);
        }
    }
}
