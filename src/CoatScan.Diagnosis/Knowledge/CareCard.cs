namespace CoatScan.Diagnosis;

/// <summary>Care advice for every owner.</summary>
/// <param name="General">For every finish.</param>
/// <param name="FreshFinish">For a finish younger than a month.</param>
/// <param name="Sources">Keys of the sources.</param>
public sealed record CareCard(
    IReadOnlyList<string> General,
    IReadOnlyList<string> FreshFinish,
    IReadOnlyList<string> Sources);
