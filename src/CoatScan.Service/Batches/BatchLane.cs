using CoatScan.Service.Options;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Batches;

/// <summary>
/// Lets work on batches start only where calls leave room. A call never waits for a batch: the core that batches leave free
/// serves it while the photo in progress ends.
/// </summary>
/// <remarks>Under calls without a pause a batch still moves, by one item for each wait of <see cref="Patience"/>.</remarks>
internal sealed class BatchLane(IOptions<BatchOptions> options, TimeProvider clock)
{
    /// <summary>Longest wait of an item for a pause between calls.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly int _places = options.Value.EffectiveWorkers;
    private readonly Lock _lock = new();
    private TaskCompletionSource _change = NewChange();
    private int _calls;
    private int _items;

    /// <summary>A call has come; say so again with <see cref="CallLeaves"/>.</summary>
    public void CallComes()
    {
        lock (_lock)
        {
            _calls++;
        }
    }

    /// <summary>A call has its answer.</summary>
    public void CallLeaves()
    {
        lock (_lock)
        {
            _calls--;
            SayChanged();
        }
    }

    /// <summary>Runs work of the processor on an item when calls leave room for it.</summary>
    public async Task<T> RunAsync<T>(Func<T> work, CancellationToken cancellationToken)
    {
        await EnterAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            return await Task.Run(work, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            lock (_lock)
            {
                _items--;
                SayChanged();
            }
        }
    }

    private async Task EnterAsync(CancellationToken cancellationToken)
    {
        using var patience = new CancellationTokenSource(Patience, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(patience.Token, cancellationToken);
        while (true)
        {
            Task change;
            lock (_lock)
            {
                if (_calls + _items < _places || patience.IsCancellationRequested)
                {
                    _items++;
                    return;
                }

                change = _change.Task;
            }

            await change.WaitAsync(either.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            cancellationToken.ThrowIfCancellationRequested();
        }
    }

    private void SayChanged()
    {
        _change.SetResult();
        _change = NewChange();
    }

    private static TaskCompletionSource NewChange() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
