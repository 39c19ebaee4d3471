namespace CoatScan.Diagnosis;

/// <summary>One rung of a condition's remedy ladder.</summary>
/// <param name="Operation">Id of the operation.</param>
/// <param name="Action">What to do.</param>
/// <param name="StopIf">When to stop, skip or go on.</param>
/// <param name="Wait">How long to wait; null if no wait is known.</param>
public sealed record LadderStep(string Operation, string Action, string StopIf, string? Wait = null);
