namespace CoatScan.Batches;

/// <summary>Something that happened to a batch, as it was then.</summary>
/// <param name="Sequence">1, 2, 3, ... within the batch, without gaps.</param>
/// <param name="Batch">The batch as of this event.</param>
/// <param name="Item">The item that came to rest; null when the batch was started, cancelled or retried.</param>
public sealed record BatchEvent(long Sequence, Batch Batch, BatchItem? Item);
