namespace CoatScan.Diagnosis;

/// <summary>When work belongs in licensed or qualified hands.</summary>
/// <param name="Id">Id of the matter.</param>
/// <param name="Operations">Holds where one of these is in the remedy.</param>
/// <param name="Why">Why.</param>
/// <param name="To">To whom.</param>
/// <param name="Sources">Keys of the sources.</param>
/// <param name="Conditions">Or where one of these leads; null for none.</param>
/// <param name="Evidence">And only where one of these is present; null for always.</param>
/// <param name="Panels">And only where the name of the panel holds one of these, lower case; null for always.</param>
public sealed record HandOverRule(
    string Id,
    IReadOnlyList<string> Operations,
    string Why,
    string To,
    IReadOnlyList<string> Sources,
    IReadOnlyList<string>? Conditions = null,
    IReadOnlyList<string>? Evidence = null,
    IReadOnlyList<string>? Panels = null);
