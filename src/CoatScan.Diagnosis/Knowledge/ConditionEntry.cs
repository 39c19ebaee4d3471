using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>One condition of a paint film as the knowledge base describes it.</summary>
public sealed record ConditionEntry
{
    /// <summary>Id, lower snake case.</summary>
    public required string Id { get; init; }

    /// <summary>Trade name.</summary>
    public required string Name { get; init; }

    /// <summary>Other names in use; empty if none.</summary>
    public required string Also { get; init; }

    /// <summary>Family, for example <c>spotting</c>.</summary>
    public required string Family { get; init; }

    /// <summary>Key of the timing rule, for example <c>gradual</c>; <c>none</c> when nothing came about.</summary>
    public required string ClaimClass { get; init; }

    /// <summary>How often it is met, relative to the others, above 0; trade judgment, not a frequency.</summary>
    public required double BaseWeight { get; init; }

    /// <summary>Finishes on which it is met.</summary>
    public required IReadOnlyList<string> Finishes { get; init; }

    /// <summary>Plain words for the vehicle's owner.</summary>
    public required string PlainWords { get; init; }

    /// <summary>What it looks like.</summary>
    public required ConditionLook Look { get; init; }

    /// <summary>Evidence that it lists, by class.</summary>
    public required IReadOnlyDictionary<LikelihoodClass, IReadOnlyList<string>> Signs { get; init; }

    /// <summary>What it is taken for, and how to tell.</summary>
    public required IReadOnlyList<LookAlikeHint> LookAlikes { get; init; }

    /// <summary>How a painter tells it, in words.</summary>
    public required IReadOnlyList<string> HowToTell { get; init; }

    /// <summary>Causes, at least one.</summary>
    public required IReadOnlyList<CauseEntry> Causes { get; init; }

    /// <summary>Remedy ladder, least invasive step first.</summary>
    public required IReadOnlyList<LadderStep> Ladder { get; init; }

    /// <summary>What is wrong for it; scope <c>always</c> or <c>until_met</c>.</summary>
    public required IReadOnlyList<MustNot> MustNot { get; init; }

    /// <summary>How to keep it from coming back.</summary>
    public required IReadOnlyList<string> Prevention { get; init; }

    /// <summary>Its own cautions; may be empty.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>The standard that rates it.</summary>
    public required string Rating { get; init; }

    /// <summary>What shows that it was there before.</summary>
    public required string PreExistingSigns { get; init; }

    /// <summary>Keys of the sources, at least one.</summary>
    public required IReadOnlyList<string> Sources { get; init; }
}
