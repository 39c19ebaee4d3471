namespace CoatScan.Findings;

/// <summary>One proposed condition.</summary>
/// <param name="Condition">Id of the condition in the catalog.</param>
/// <param name="Probability">Share over all conditions, [0, 1].</param>
/// <param name="Evidence">What moved it, heaviest first.</param>
public sealed record ConditionShare(string Condition, double Probability, IReadOnlyList<EvidenceWeight> Evidence)
{
    /// <summary>Trade name of the condition.</summary>
    public string DisplayName { get; init; } = "";
}
