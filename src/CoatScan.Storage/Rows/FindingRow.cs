namespace CoatScan.Storage.Rows;

/// <summary>One stored finding: the document, and beside it what is asked for without reading the document.</summary>
internal sealed class FindingRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    /// <summary>The part of the name after <c>findings/</c>.</summary>
    public required string Id { get; init; }

    /// <summary>UTC, ticks of 100 ns: SQLite has no date type, and a number sorts as time does.</summary>
    public required long CreateTimeTicks { get; init; }

    public required string Verdict { get; init; }

    public required string Panel { get; init; }

    public required string ExternalRef { get; init; }

    /// <summary>Id of the most probable condition; null if there is none.</summary>
    public string? TopCondition { get; init; }

    /// <summary>Batch and key of the item that it is the finding of; null when it answered a call.</summary>
    public string? BatchItem { get; set; }

    /// <summary>What the finding was made from, as JSON; null in rows of versions that did not keep it.</summary>
    public string? Given { get; set; }

    /// <summary>The whole finding as JSON.</summary>
    public required string Document { get; init; }
}
