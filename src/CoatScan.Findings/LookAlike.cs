namespace CoatScan.Findings;

/// <summary>A pair of conditions that look alike and are not told apart yet.</summary>
/// <param name="Condition">Id of the leading condition.</param>
/// <param name="Other">Id of the condition it can be taken for.</param>
/// <param name="DecidingTests">Ids of the tests that tell them apart.</param>
/// <param name="Tell">How to tell them apart, in words.</param>
public sealed record LookAlike(string Condition, string Other, IReadOnlyList<string> DecidingTests, string Tell);
