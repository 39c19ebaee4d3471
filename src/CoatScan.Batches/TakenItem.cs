namespace CoatScan.Batches;

/// <summary>An item that came out of the hand-out, which may add what it needs to acknowledge it.</summary>
/// <param name="Ready">The item.</param>
public record TakenItem(ReadyItem Ready);
