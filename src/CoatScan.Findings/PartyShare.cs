namespace CoatScan.Findings;

/// <summary>How much speaks for one party to answer.</summary>
/// <param name="Party">Id of the party, for example <c>applicator</c>.</param>
/// <param name="Probability">Summed share of its causes, [0, 1].</param>
/// <param name="Text">The party in words.</param>
public sealed record PartyShare(string Party, double Probability, string Text)
{
    /// <summary>What speaks for it, heaviest first, one phrase each.</summary>
    public IReadOnlyList<string> For { get; init; } = [];

    /// <summary>What speaks against it, heaviest first, one phrase each.</summary>
    public IReadOnlyList<string> Against { get; init; } = [];
}
