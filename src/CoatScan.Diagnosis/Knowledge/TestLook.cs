namespace CoatScan.Diagnosis;

/// <summary>When a look is worth asking for.</summary>
/// <param name="MissingGroups">Asked while none of the evidence is of these groups.</param>
/// <param name="BesideTest">Asked only where one of these tests could still move a leading condition; empty for always.</param>
/// <param name="Brings">Group of which it brings one sign; null where that cannot be said.</param>
public sealed record TestLook(
    IReadOnlyList<string> MissingGroups,
    IReadOnlyList<string> BesideTest,
    string? Brings = null);
