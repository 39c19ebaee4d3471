using System.Collections.Concurrent;
using System.Threading.Channels;

namespace CoatScan.Batches;

/// <summary>Hands items out inside one process.</summary>
public sealed class ChannelHandOut : IItemHandOut
{
    private const int ItemsPerWorker = 4;

    private readonly Channel<ReadyItem> _items = Channel.CreateUnbounded<ReadyItem>();
    private readonly ConcurrentDictionary<ItemRef, byte> _out = [];
    private readonly Channel<byte> _room = Channel.CreateBounded<byte>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly TimeProvider _clock;

    /// <summary>Nothing is out yet.</summary>
    /// <param name="workers">Number of workers, 1 or more.</param>
    /// <param name="clock">Clock of the waits.</param>
    public ChannelHandOut(int workers, TimeProvider clock)
    {
        Window = ItemsPerWorker * workers;
        _clock = clock;
    }

    /// <inheritdoc/>
    public int Window { get; }

    /// <inheritdoc/>
    public ValueTask HandOutAsync(ReadyItem item, CancellationToken cancellationToken) =>
        _out.Count < Window && _out.TryAdd(item.Item, 0)
            ? _items.Writer.WriteAsync(item, cancellationToken)
            : ValueTask.CompletedTask;

    /// <inheritdoc/>
    public async ValueTask<TakenItem> TakeAsync(CancellationToken cancellationToken) =>
        new(await _items.Reader.ReadAsync(cancellationToken).ConfigureAwait(false));

    /// <inheritdoc/>
    /// <remarks>There is none: an item that is lost here is lost with its process, and the ledger knows.</remarks>
    public async ValueTask<TakenItem> TakeGivenUpAsync(CancellationToken cancellationToken)
    {
        await Task.Delay(Timeout.InfiniteTimeSpan, _clock, cancellationToken).ConfigureAwait(false);
        throw new OperationCanceledException(cancellationToken);
    }

    /// <inheritdoc/>
    public ValueTask AcknowledgeAsync(TakenItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        _out.TryRemove(item.Ready.Item, out _);
        _room.Writer.TryWrite(0);
        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    /// <inheritdoc/>
    public async Task WaitForRoomAsync(TimeSpan longest, CancellationToken cancellationToken)
    {
        using var wait = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        Task room = _room.Reader.WaitToReadAsync(wait.Token).AsTask();
        await Task.WhenAny(room, Task.Delay(longest, _clock, wait.Token)).ConfigureAwait(false);
        await wait.CancelAsync().ConfigureAwait(false);
        await room.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _room.Reader.TryRead(out _);
        cancellationToken.ThrowIfCancellationRequested();
    }
}
