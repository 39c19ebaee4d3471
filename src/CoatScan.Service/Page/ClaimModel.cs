using CoatScan.Reports;

namespace CoatScan.Service.Page;

/// <summary>What the view of a claim or vehicle shows.</summary>
/// <param name="Title">The claim or vehicle.</param>
/// <param name="Panels">Its panels with the addresses of their pictures, in any order.</param>
/// <param name="Failed">What has no finding, and why.</param>
public sealed record ClaimModel(string Title, IReadOnlyList<FindingSubject> Panels, IReadOnlyList<OverviewEntry> Failed)
{
    /// <summary>Address of its sheet.</summary>
    public required string SheetHref { get; init; }

    /// <summary>Reference to add a panel to; empty where none can be added.</summary>
    public string Reference { get; init; } = "";

    /// <summary>Lane that it belongs to: name and address; empty for none.</summary>
    public (string Name, string Href) Lane { get; init; } = ("", "");
}
