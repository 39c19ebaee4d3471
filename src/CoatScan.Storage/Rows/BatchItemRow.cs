using CoatScan.Batches;

namespace CoatScan.Storage.Rows;

/// <summary>One item of a batch.</summary>
internal sealed class BatchItemRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    public required string Batch { get; init; }

    public required string ItemKey { get; init; }

    /// <summary>From 0, in the order of adding.</summary>
    public required int Position { get; init; }

    public required string VehicleRef { get; init; }

    public required string Panel { get; init; }

    /// <summary>The whole <see cref="NewItem"/> as JSON.</summary>
    public required string Given { get; init; }

    public required ItemState State { get; set; }

    public required int Attempt { get; set; }

    /// <summary>Attempts during which the worker process ended; above 0 the item is a suspect and runs alone.</summary>
    public required int LostCount { get; set; }

    /// <summary>Earliest next attempt, UTC, ticks.</summary>
    public required long DueTicks { get; set; }

    /// <summary>When the claim ends without a sign of life, UTC, ticks; null when not claimed.</summary>
    public required long? LeaseUntilTicks { get; set; }

    /// <summary>Who holds the claim; empty when not claimed.</summary>
    public required string Worker { get; set; }

    /// <summary>Number of claims ever made; an outcome is taken only from the newest.</summary>
    public required long Fence { get; set; }

    /// <summary>Id of the finding.</summary>
    public required string? FindingId { get; set; }

    /// <summary>The last error as JSON.</summary>
    public required string? Error { get; set; }

    /// <summary>The <see cref="PanelSummary"/> as JSON.</summary>
    public required string? Summary { get; set; }

    /// <summary>Place among the panels of a batch, larger is worse; null until at rest.</summary>
    public required long? Severity { get; set; }
}
