using CoatScan.Cli.Connection;
using CoatScan.V1;

namespace CoatScan.Cli.Photos;

/// <summary>What came of one input: a finding or an error, never both.</summary>
/// <param name="Name">The photo, panel or case as the user knows it.</param>
/// <param name="Finding">The finding.</param>
/// <param name="Error">Why there is none.</param>
internal sealed record PhotoOutcome(string Name, Finding? Finding, ServiceError? Error)
{
    /// <summary>Paths of the photos that the finding is about, where pictures of them can be read again.</summary>
    public IReadOnlyList<string> Paths { get; init; } = [];
}
