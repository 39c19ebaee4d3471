namespace CoatScan.Cli.Batches;

/// <summary>One panel to grade.</summary>
/// <param name="Key">Key of its item.</param>
/// <param name="Panel">Its place in the folder.</param>
/// <param name="Photos">Its photos.</param>
internal sealed record PlannedPanel(string Key, PanelPhotos Panel, IReadOnlyList<DigestedPhoto> Photos);
