using System.Collections.Concurrent;

namespace CoatScan.Classification;

/// <summary>
/// Lends engines that are not thread safe, at most <c>capacity</c> at a time; who comes later waits. Engines are made
/// on first need and kept.
/// </summary>
internal sealed class EnginePool<TEngine> : IDisposable
    where TEngine : class, IDisposable
{
    private readonly ConcurrentBag<TEngine> _idle = [];
    private readonly Func<TEngine> _create;
    private readonly SemaphoreSlim _free;

    public EnginePool(int capacity, Func<TEngine> create)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(capacity, 1);
        _create = create;
        _free = new SemaphoreSlim(capacity, capacity);
    }

    /// <exception cref="OperationCanceledException">The caller gave up while waiting.</exception>
    public TResult Use<TResult>(Func<TEngine, TResult> work, CancellationToken cancellationToken)
    {
        _free.Wait(cancellationToken);
        try
        {
            if (!_idle.TryTake(out var engine))
            {
                engine = _create();
            }

            try
            {
                return work(engine);
            }
            finally
            {
                _idle.Add(engine);
            }
        }
        finally
        {
            _free.Release();
        }
    }

    public void Dispose()
    {
        while (_idle.TryTake(out var engine))
        {
            engine.Dispose();
        }

        _free.Dispose();
    }
}
