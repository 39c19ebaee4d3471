namespace CoatScan.Storage.Rows;

/// <summary>A request that was answered, kept for <see cref="FindingStore.ReplayWindow"/>.</summary>
internal sealed class RequestKeyRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    public required string RequestId { get; init; }

    public required string RequestHash { get; init; }

    public required string FindingId { get; init; }

    /// <summary>UTC, ticks of 100 ns.</summary>
    public required long CreateTimeTicks { get; init; }
}
