using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>What grading an item gives.</summary>
/// <param name="Finding">The finding.</param>
/// <param name="Summary">What a list of vehicles shows of it.</param>
public sealed record GradedItem(Finding Finding, PanelSummary Summary)
{
    /// <summary>How the ledger looks for earlier findings with the same pictures, to note them; null to note none.</summary>
    public EarlierLook? Look { get; init; }
}
