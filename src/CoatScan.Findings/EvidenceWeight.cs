namespace CoatScan.Findings;

/// <summary>How much one piece of evidence moved one candidate.</summary>
/// <param name="Id">Id in the evidence vocabulary, or <c>photo.{visual class}</c>.</param>
/// <param name="WeightLog">Natural logarithm of the factor: above 0 speaks for, below 0 against.</param>
/// <param name="Reason">Short reason for the reader.</param>
public sealed record EvidenceWeight(string Id, double WeightLog, string Reason);
