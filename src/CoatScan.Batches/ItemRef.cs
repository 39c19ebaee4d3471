using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>Which item.</summary>
/// <param name="Tenant">Whose.</param>
/// <param name="Batch">Id of the batch.</param>
/// <param name="Key">Key of the item in the batch.</param>
public readonly record struct ItemRef(Tenant Tenant, string Batch, string Key);
