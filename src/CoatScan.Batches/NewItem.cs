using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>One panel to grade, as the caller sends it.</summary>
/// <param name="Key">The caller's key of the item, unique in its batch: 1 to 63 letters, digits, '-' or '_'.</param>
/// <param name="VehicleRef">The caller's reference of the vehicle, at most 128 characters; empty if not given.</param>
/// <param name="Photos">Names of 1 to 12 photos of the panel.</param>
/// <param name="Facts">What the caller knows about the panel, its name included.</param>
public sealed record NewItem(string Key, string VehicleRef, IReadOnlyList<string> Photos, PanelFacts Facts);
