namespace CoatScan.Diagnosis;

/// <summary>What to ask about how and when a condition came about.</summary>
/// <param name="Questions">Questions, most telling first.</param>
/// <param name="NewSigns">What shows that a mark is new.</param>
/// <param name="OldSigns">What shows that a mark is older.</param>
/// <param name="Caution">What must not be concluded.</param>
/// <param name="Dates">Sentences by <c>fits</c>, <c>does_not_fit</c>, <c>cannot_tell</c>.</param>
/// <param name="Sources">Keys of the sources.</param>
public sealed record ClaimRules(
    IReadOnlyList<string> Questions,
    string NewSigns,
    string OldSigns,
    string Caution,
    IReadOnlyDictionary<string, string> Dates,
    IReadOnlyList<string> Sources);
