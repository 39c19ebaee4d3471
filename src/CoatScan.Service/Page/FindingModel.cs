using CoatScan.Findings;
using CoatScan.Reports;

namespace CoatScan.Service.Page;

/// <summary>What the view of a finding shows.</summary>
/// <param name="Finding">The finding.</param>
/// <param name="Parts">Its parts in words.</param>
public sealed record FindingModel(Finding Finding, FindingParts Parts)
{
    /// <summary>Last part of its name: its place in addresses.</summary>
    public required string Id { get; init; }

    /// <summary>Questions that matter most now.</summary>
    public IReadOnlyList<Question> Questions { get; init; } = [];

    /// <summary>Tests put aside: id and name.</summary>
    public IReadOnlyList<(string Id, string Name)> Skipped { get; init; } = [];

    /// <summary>The sentence of the finding that this one follows on; empty for none.</summary>
    public string Before { get; init; } = "";

    /// <summary>What the reader said: id, words, who.</summary>
    public IReadOnlyList<(string Id, string Text, string By)> Said { get; init; } = [];

    /// <summary>What can be said, by group: id and words.</summary>
    public IReadOnlyList<(string Group, IReadOnlyList<(string Id, string Text)> Terms)> Sayable { get; init; } = [];

    /// <summary>Size of the paper that the reader has.</summary>
    public required Paper Paper { get; init; }

    /// <summary>Photos whose bytes are stored, so that they can be judged again.</summary>
    public bool CanJudgeAgain { get; init; }
}
