namespace CoatScan.Batches;

/// <summary>An item that waits and is due.</summary>
/// <param name="Item">Which.</param>
/// <param name="Suspect">Whether a worker process ended while it worked on the item: it has to run alone.</param>
/// <param name="Fence">How often it was claimed so far.</param>
public readonly record struct ReadyItem(ItemRef Item, bool Suspect, long Fence);
