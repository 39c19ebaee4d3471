namespace CoatScan.Findings;

/// <summary>What the caller knows about a panel and a photo cannot show.</summary>
public sealed record PanelFacts
{
    /// <summary>Ids of the evidence vocabulary, without repeats.</summary>
    public IReadOnlyList<string> Evidence { get; init; } = [];

    /// <summary>Readings.</summary>
    public Readings Readings { get; init; } = Readings.None;

    /// <summary>Scale of the photos, millimeters per pixel of the original, (0, 10]; null if unknown.</summary>
    public double? MmPerPx { get; init; }

    /// <summary>The caller's name of the panel, at most 64 characters.</summary>
    public string Panel { get; init; } = "";

    /// <summary>The caller's own reference, at most 128 characters; never parsed.</summary>
    public string ExternalRef { get; init; } = "";
}
