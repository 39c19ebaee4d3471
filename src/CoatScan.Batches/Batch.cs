namespace CoatScan.Batches;

/// <summary>A batch with its counts, as of one commit.</summary>
public sealed record Batch
{
    /// <summary>The caller's id, or one that the ledger gave: 4 to 63 of [a-z0-9-], first a letter.</summary>
    public required string Id { get; init; }

    /// <summary>Name for people; empty if not given.</summary>
    public string DisplayName { get; init; } = "";

    /// <summary>Where the batch is in its life.</summary>
    public required BatchState State { get; init; }

    /// <summary>Items in all.</summary>
    public int ItemCount { get; init; }

    /// <summary>Items with a finding.</summary>
    public int GradedCount { get; init; }

    /// <summary>Items that failed for good.</summary>
    public int FailedCount { get; init; }

    /// <summary>Items that were cancelled before a worker took them.</summary>
    public int CancelledCount { get; init; }

    /// <summary>When it was created, UTC.</summary>
    public required DateTimeOffset CreateTime { get; init; }

    /// <summary>When its last item came to rest, UTC; null before.</summary>
    public DateTimeOffset? FinishTime { get; init; }

    /// <summary>Sequence of its newest event; 0 before the first.</summary>
    public long LastSequence { get; init; }

    /// <summary>Grows with every change of the batch.</summary>
    public required long Version { get; init; }

    /// <summary>Whether nothing of it waits or runs any more.</summary>
    public bool AtRest => FinishTime is not null;
}
