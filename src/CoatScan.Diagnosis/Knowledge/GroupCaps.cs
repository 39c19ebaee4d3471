namespace CoatScan.Diagnosis;

/// <summary>Limits of the product of all evidence of one group of context evidence, for conditions.</summary>
/// <param name="Groups">The groups.</param>
/// <param name="Low">Lowest product, above 0.</param>
/// <param name="High">Highest product.</param>
public sealed record GroupCaps(IReadOnlyList<string> Groups, double Low, double High);
