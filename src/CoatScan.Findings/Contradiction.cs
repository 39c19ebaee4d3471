namespace CoatScan.Findings;

/// <summary>Two statements that cannot both be right.</summary>
/// <param name="First">Id of the first evidence.</param>
/// <param name="Second">Id of the second evidence.</param>
/// <param name="Doubts">What is in doubt: <c>origin</c>, <c>date</c>, <c>exposure</c> or <c>test</c>.</param>
/// <param name="Text">What does not fit, in words.</param>
public sealed record Contradiction(string First, string Second, string Doubts, string Text)
{
    /// <summary>What it puts in doubt and what follows from that, one sentence.</summary>
    public string Consequence { get; init; } = "";
}
