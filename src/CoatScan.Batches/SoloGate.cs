namespace CoatScan.Batches;

/// <summary>Lets work run side by side, or one piece of it alone.</summary>
internal sealed class SoloGate(int workers) : IDisposable
{
    private readonly SemaphoreSlim _places = new(workers, workers);
    private readonly SemaphoreSlim _solo = new(1, 1);

    /// <summary>Enters; leave by disposing what comes back.</summary>
    /// <param name="alone">Whether nothing else may run meanwhile.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    public async Task<IDisposable> EnterAsync(bool alone, CancellationToken cancellationToken)
    {
        if (!alone)
        {
            await _places.WaitAsync(cancellationToken).ConfigureAwait(false);
            return new Leave(_places, 1);
        }

        // Only one may collect places at a time, or two would wait for each other's.
        await _solo.WaitAsync(cancellationToken).ConfigureAwait(false);
        var taken = 0;
        try
        {
            for (; taken < workers; taken++)
            {
                await _places.WaitAsync(cancellationToken).ConfigureAwait(false);
            }

            return new Leave(_places, workers);
        }
        catch when (taken > 0)
        {
            _places.Release(taken);
            throw;
        }
        finally
        {
            _solo.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _places.Dispose();
        _solo.Dispose();
    }

    private sealed class Leave(SemaphoreSlim places, int count) : IDisposable
    {
        public void Dispose() => places.Release(count);
    }
}
