namespace CoatScan.Diagnosis;

/// <summary>Two look-alikes in play that no deciding evidence tells apart yet.</summary>
/// <param name="Leading">Id of the more probable condition.</param>
/// <param name="Other">Id of the other.</param>
/// <param name="Decider">What would tell them apart.</param>
internal sealed record OpenPair(string Leading, string Other, DeciderEntry Decider);
