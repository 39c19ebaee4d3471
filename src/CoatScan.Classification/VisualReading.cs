using CoatScan.Findings;

namespace CoatScan.Classification;

/// <summary>What one photo shows.</summary>
public sealed record VisualReading
{
    /// <summary>All visual classes, most probable first; the probabilities sum to 1.</summary>
    public required IReadOnlyList<VisualClassShare> Shares { get; init; }

    /// <summary>False when the photo shows no painted panel and must not be assessed.</summary>
    public required bool IsPanel { get; init; }

    /// <summary>False when the photo is unlike everything the model was trained on, so that its shares are doubtful.</summary>
    public required bool Familiar { get; init; }

    /// <summary>Why <see cref="IsPanel"/> or <see cref="Familiar"/> is false, one sentence; null when both are true.</summary>
    public string? Doubt { get; init; }
}
