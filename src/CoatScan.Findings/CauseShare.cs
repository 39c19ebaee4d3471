namespace CoatScan.Findings;

/// <summary>One probable cause of one condition.</summary>
/// <param name="Condition">Id of the condition.</param>
/// <param name="Cause">Id of the cause inside the condition.</param>
/// <param name="Probability">Share among the causes of that condition, [0, 1].</param>
/// <param name="Party">Id of the party that answers for it.</param>
/// <param name="Evidence">What moved it, heaviest first.</param>
public sealed record CauseShare(
    string Condition,
    string Cause,
    double Probability,
    string Party,
    IReadOnlyList<EvidenceWeight> Evidence)
{
    /// <summary>The cause in words.</summary>
    public string Text { get; init; } = "";

    /// <summary>How the cause makes the condition.</summary>
    public string Mechanism { get; init; } = "";
}
