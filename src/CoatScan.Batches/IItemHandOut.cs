namespace CoatScan.Batches;

/// <summary>
/// Carries ready items from the feeder to the workers: ids only, the ledger is the truth. An item that is carried twice or
/// lost does no harm: a claim succeeds once, and the feeder offers again what the ledger still shows as ready. Disposed, it
/// leaves to other processes what this one took and did not acknowledge.
/// </summary>
public interface IItemHandOut : IAsyncDisposable
{
    /// <summary>How many items to keep handed out: enough that no worker waits for the feeder. 0 while another process feeds.</summary>
    int Window { get; }

    /// <summary>Hands an item out to the next free worker; one that is out already is left as it is.</summary>
    ValueTask HandOutAsync(ReadyItem item, CancellationToken cancellationToken);

    /// <summary>Takes the next item; waits for one.</summary>
    ValueTask<TakenItem> TakeAsync(CancellationToken cancellationToken);

    /// <summary>Takes the next item that nothing came of, however often it was handed out; waits for one.</summary>
    ValueTask<TakenItem> TakeGivenUpAsync(CancellationToken cancellationToken);

    /// <summary>Says that the ledger knows all there is to know of an item taken.</summary>
    ValueTask AcknowledgeAsync(TakenItem item);

    /// <summary>Waits until there may be room for more, at most as long as given.</summary>
    Task WaitForRoomAsync(TimeSpan longest, CancellationToken cancellationToken);
}
