namespace CoatScan.Findings;

/// <summary>Work that belongs in licensed or qualified hands.</summary>
/// <param name="Matter">Id of the matter, for example <c>structure</c>.</param>
/// <param name="Why">Why, in words.</param>
/// <param name="To">To whom.</param>
public sealed record HandOver(string Matter, string Why, string To);
