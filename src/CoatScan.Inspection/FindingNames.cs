namespace CoatScan.Inspection;

/// <summary>Gives each finding its name.</summary>
public sealed class FindingNames
{
    private readonly TimeProvider _clock;

    /// <summary>Names that sort by time: UUID version 7 (RFC 9562) of the given clock.</summary>
    public FindingNames(TimeProvider clock) => _clock = clock;

    /// <summary>A name that no other finding has.</summary>
    public string Next() => $"findings/{Guid.CreateVersion7(_clock.GetUtcNow()):D}";
}
