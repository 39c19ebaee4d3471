namespace CoatScan.Diagnosis;

/// <summary>What evidence says about how a condition came about.</summary>
/// <param name="Text">How it comes about, in words.</param>
/// <param name="Fits">Evidence that fits, and why.</param>
/// <param name="DoesNotFit">Evidence that does not fit, and why.</param>
public sealed record TimingRule(
    string Text,
    IReadOnlyDictionary<string, string> Fits,
    IReadOnlyDictionary<string, string> DoesNotFit);
