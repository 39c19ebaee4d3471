namespace CoatScan.Batches;

/// <summary>One vehicle of a batch.</summary>
/// <param name="VehicleRef">The caller's reference of the vehicle; empty for items without one.</param>
/// <param name="Panels">Its panels, worst first; those that are not graded yet are not among them.</param>
/// <param name="OpenCount">Items of the vehicle that still wait or run.</param>
public sealed record VehicleSummary(string VehicleRef, IReadOnlyList<VehiclePanel> Panels, int OpenCount);
