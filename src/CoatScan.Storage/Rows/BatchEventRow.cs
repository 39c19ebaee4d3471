using CoatScan.Batches;

namespace CoatScan.Storage.Rows;

/// <summary>One event of a batch, with all that changes as it was then.</summary>
internal sealed class BatchEventRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    public required string Batch { get; init; }

    /// <summary>1, 2, 3, ... within the batch.</summary>
    public required long Sequence { get; init; }

    public required BatchState BatchState { get; init; }

    public required int GradedCount { get; init; }

    public required int FailedCount { get; init; }

    public required int CancelledCount { get; init; }

    public required long? FinishTimeTicks { get; init; }

    public required long Version { get; init; }

    /// <summary>Null for an event of the batch as a whole.</summary>
    public string? ItemKey { get; init; }

    public ItemState? ItemState { get; init; }

    public int? Attempt { get; init; }

    public string? FindingId { get; init; }

    public string? Error { get; init; }
}
