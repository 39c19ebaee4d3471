namespace CoatScan.Diagnosis;

/// <summary>A condition that this one is taken for.</summary>
/// <param name="Id">Id of the other condition.</param>
/// <param name="Tell">How to tell them apart.</param>
public sealed record LookAlikeHint(string Id, string Tell);
