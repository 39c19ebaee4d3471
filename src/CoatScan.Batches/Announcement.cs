using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>An event of a batch, to be told to other programs.</summary>
/// <param name="Tenant">Whose batch.</param>
/// <param name="Event">The event; only those about an item are told.</param>
public sealed record Announcement(Tenant Tenant, BatchEvent Event);
