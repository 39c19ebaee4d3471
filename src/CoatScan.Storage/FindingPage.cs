using CoatScan.Findings;

namespace CoatScan.Storage;

/// <summary>One page of findings.</summary>
/// <param name="Findings">The findings, newest first.</param>
/// <param name="NextPageToken">Asks for the next page; empty on the last page. Good for three days.</param>
public sealed record FindingPage(IReadOnlyList<Finding> Findings, string NextPageToken);
