using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>One line of an overview: a finding, or why there is none.</summary>
/// <param name="Name">The photo, panel or case as its user knows it.</param>
/// <param name="Finding">The finding; null where it failed.</param>
/// <param name="Failure">Why there is none; empty with a finding.</param>
/// <param name="Href">File of its sheet; empty for none.</param>
public sealed record OverviewEntry(string Name, Finding? Finding, string Failure = "", string Href = "")
{
    /// <summary>An entry that keeps of its finding what an overview takes, so that thousands of them fit in memory.</summary>
    public OverviewEntry Small() => this with
    {
        Finding = Finding is null ? null : Finding with
        {
            Photos = [.. Finding.Photos.Select(photo => photo with { Spots = [], Outlines = [] })],
            Measurements = [],
            Evidence = [],
            Causes = [],
            Parties = [],
            NextTests = [],
            LookAlikes = [],
        },
    };
}
