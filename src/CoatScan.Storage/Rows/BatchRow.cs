using CoatScan.Batches;

namespace CoatScan.Storage.Rows;

/// <summary>One batch.</summary>
internal sealed class BatchRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    public required string Id { get; init; }

    public required string DisplayName { get; init; }

    public required BatchState State { get; set; }

    public required int ItemCount { get; set; }

    public required int GradedCount { get; set; }

    public required int FailedCount { get; set; }

    public required int CancelledCount { get; set; }

    /// <summary>UTC, ticks of 100 ns.</summary>
    public required long CreateTimeTicks { get; init; }

    /// <summary>UTC, ticks of 100 ns; null until the batch is at rest.</summary>
    public required long? FinishTimeTicks { get; set; }

    /// <summary>Sequence of the newest event.</summary>
    public required long LastSequence { get; set; }

    /// <summary>Sequence of the newest event that was announced to other programs; 0 before the first.</summary>
    public required long AnnouncedSequence { get; set; }

    /// <summary>Grows by one with every change that a caller can see.</summary>
    public required long Version { get; set; }

    /// <summary>When a worker last took an item; the batch that waited longest is served next.</summary>
    public required long LastClaimTicks { get; set; }
}
