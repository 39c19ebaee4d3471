namespace CoatScan.Batches;

/// <summary>The right to write the outcome of one attempt.</summary>
/// <param name="Item">Which item.</param>
/// <param name="Given">What to grade.</param>
/// <param name="Attempt">Number of this attempt, from 1.</param>
/// <param name="Fence">Grows with every claim of the item; an outcome under an older one is refused.</param>
public sealed record ItemClaim(ItemRef Item, NewItem Given, int Attempt, long Fence);
