using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>What the photos of one panel show, ready to be merged with what the caller knows.</summary>
public sealed record PhotoEvidence
{
    /// <summary>Probability of every visual class of the classifier; sums to 1.</summary>
    public required IReadOnlyList<VisualClassShare> Shares { get; init; }

    /// <summary>Share of every visual class in the training set, above 0; what the classifier would say knowing nothing.</summary>
    public required IReadOnlyDictionary<string, double> PriorShares { get; init; }

    /// <summary>How far the photo's odds are trusted, [0, 1]; learned on held-out rendered panels.</summary>
    public required double Lambda { get; init; }

    /// <summary>Ids of signs that were measured in the photos, for example a size; never of the group <c>form</c>.</summary>
    public IReadOnlyList<string> MeasuredSigns { get; init; } = [];

    /// <summary>Numbers of the photos, from 1, that show a visual class or measured sign, by its id; may lack some.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<int>> PhotosOf { get; init; } = new Dictionary<string, IReadOnlyList<int>>();

    /// <summary>How many different photos of the panel speak; the same file sent twice is one.</summary>
    public int PhotoCount { get; init; } = 1;

    /// <summary>Why the photos could not show that nothing is wrong, one sentence or two each; empty if they could.</summary>
    public IReadOnlyList<string> SoundDoubts { get; init; } = [];

    /// <summary>Whether the photos resemble those the classifier learned from.</summary>
    public bool Familiar { get; init; } = true;
}
