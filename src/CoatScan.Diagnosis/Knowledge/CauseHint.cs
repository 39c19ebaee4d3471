namespace CoatScan.Diagnosis;

/// <summary>What a piece of evidence says about causes of one party or one onset that do not list it themselves.</summary>
/// <param name="Evidence">Id of the evidence.</param>
/// <param name="Why">Why, in words.</param>
/// <param name="Families">Families of conditions for which it holds; null for all.</param>
/// <param name="Parties">How strongly it speaks for or against causes of a party, by id of the party; null for none.</param>
/// <param name="Onsets">The same by onset of the cause; null for none. A party comes before an onset.</param>
public sealed record CauseHint(
    string Evidence,
    string Why,
    IReadOnlyList<string>? Families = null,
    IReadOnlyDictionary<string, LikelihoodClass>? Parties = null,
    IReadOnlyDictionary<string, LikelihoodClass>? Onsets = null)
{
    /// <summary>Whether it holds for a condition.</summary>
    public bool HoldsFor(ConditionEntry condition)
    {
        ArgumentNullException.ThrowIfNull(condition);
        return Families is null || Families.Contains(condition.Family);
    }
}
