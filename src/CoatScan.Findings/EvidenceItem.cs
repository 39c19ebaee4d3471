namespace CoatScan.Findings;

/// <summary>One piece of evidence that was ranked.</summary>
/// <param name="Id">Id in the evidence vocabulary, or <c>photo.{visual class}</c>.</param>
/// <param name="Origin">Who brought it.</param>
/// <param name="Text">What it says, in words.</param>
public sealed record EvidenceItem(string Id, EvidenceOrigin Origin, string Text);
