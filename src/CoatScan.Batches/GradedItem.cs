using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>What grading an item gives.</summary>
/// <param name="Finding">The finding.</param>
/// <param name="Summary">What a list of vehicles shows of it.</param>
public sealed record GradedItem(Finding Finding, PanelSummary Summary);
