namespace CoatScan.Diagnosis;

/// <summary>What a piece of evidence says about who answers, for causes that do not list it themselves.</summary>
/// <param name="Evidence">Id of the evidence.</param>
/// <param name="Families">Families of conditions for which it holds.</param>
/// <param name="Classes">How strongly it speaks for or against a party, by id of the party.</param>
/// <param name="Why">Why, in words.</param>
public sealed record PartyHint(
    string Evidence,
    IReadOnlyList<string> Families,
    IReadOnlyDictionary<string, LikelihoodClass> Classes,
    string Why);
