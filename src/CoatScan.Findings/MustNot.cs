namespace CoatScan.Findings;

/// <summary>Something that must not be done.</summary>
/// <param name="Operation">Id of the operation.</param>
/// <param name="Why">Why it is wrong.</param>
/// <param name="Scope"><c>always</c>, <c>until_met</c> (until the stated obstacle is removed) or <c>now</c> (while the finding is open).</param>
public sealed record MustNot(string Operation, string Why, string Scope);
