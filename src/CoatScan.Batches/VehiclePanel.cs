namespace CoatScan.Batches;

/// <summary>One panel of a vehicle, or why there is nothing to say about it.</summary>
/// <param name="Panel">The caller's name of the panel; empty if not given.</param>
/// <param name="Item">Key of the item that is worst on this panel.</param>
/// <param name="Finding">Name of its finding; null if it failed.</param>
/// <param name="Summary">What the finding says; null if it failed.</param>
/// <param name="Error">Why there is no finding; null if there is one.</param>
/// <param name="Retakes">What to photograph again, over all items of the panel, one sentence each.</param>
public sealed record VehiclePanel(
    string Panel, string Item, string? Finding, PanelSummary? Summary, ItemError? Error, IReadOnlyList<string> Retakes);
