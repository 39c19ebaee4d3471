namespace CoatScan.Findings;

/// <summary>One step of a remedy.</summary>
/// <param name="Operation">Id of the operation.</param>
/// <param name="Action">What to do.</param>
/// <param name="StopIf">When to stop here.</param>
/// <param name="Wait">How long to wait before or after; null if no wait is known.</param>
/// <param name="Hours">Labor range; null if none is known.</param>
public sealed record RemedyStep(string Operation, string Action, string StopIf, string? Wait, HourRange? Hours);
