namespace CoatScan.Batches;

/// <summary>An item that waits and is due.</summary>
/// <param name="Item">Which.</param>
/// <param name="Suspect">Whether a worker process ended while it worked on the item: it has to run alone.</param>
public readonly record struct ReadyItem(ItemRef Item, bool Suspect);
