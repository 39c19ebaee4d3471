namespace CoatScan.Findings;

/// <summary>One piece of evidence and who said it.</summary>
/// <param name="Evidence">Id of the evidence vocabulary.</param>
/// <param name="SaidBy">Who, in the caller's words, at most 64 characters, for example <c>owner</c>.</param>
public sealed record Statement(string Evidence, string SaidBy);
