namespace CoatScan.Batches;

/// <summary>One panel of a batch: its photos, and what has become of them.</summary>
public sealed record BatchItem
{
    /// <summary>What the caller sent.</summary>
    public required NewItem Given { get; init; }

    /// <summary>Position in the batch, from 0.</summary>
    public required int Position { get; init; }

    /// <summary>Where the item is in its life.</summary>
    public required ItemState State { get; init; }

    /// <summary>Attempts so far.</summary>
    public required int AttemptCount { get; init; }

    /// <summary>Name of the finding; null unless graded.</summary>
    public string? Finding { get; init; }

    /// <summary>The last error; null unless the last attempt failed.</summary>
    public ItemError? Error { get; init; }
}
