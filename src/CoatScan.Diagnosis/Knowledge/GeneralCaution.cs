namespace CoatScan.Diagnosis;

/// <summary>A caution that belongs to operations rather than to one condition.</summary>
/// <param name="Text">The caution.</param>
/// <param name="Operations">Shown when one of these stands in the remedy; empty for always.</param>
/// <param name="Sources">Keys of the sources.</param>
/// <param name="Evidence">If given, shown only when one of these is present.</param>
public sealed record GeneralCaution(
    string Text,
    IReadOnlyList<string> Operations,
    IReadOnlyList<string> Sources,
    IReadOnlyList<string>? Evidence = null);
