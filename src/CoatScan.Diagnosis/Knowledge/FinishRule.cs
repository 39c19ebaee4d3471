namespace CoatScan.Diagnosis;

/// <summary>What a kind of finish or panel changes, whatever the condition.</summary>
/// <param name="Evidence">Id of the evidence that names it.</param>
/// <param name="Forbids">Ids of operations that are then wrong.</param>
/// <param name="Why">Why they are wrong.</param>
/// <param name="Says">What must be said.</param>
/// <param name="Care">Care of its own; may be empty.</param>
/// <param name="Sources">Keys of the sources.</param>
/// <param name="NotPaint">Whether what is seen is no paint at all.</param>
/// <param name="Veils">Whether what is seen may lie in a layer over the paint.</param>
public sealed record FinishRule(
    string Evidence,
    IReadOnlyList<string> Forbids,
    string Why,
    string Says,
    IReadOnlyList<string> Care,
    IReadOnlyList<string> Sources,
    bool NotPaint = false,
    bool Veils = false);
