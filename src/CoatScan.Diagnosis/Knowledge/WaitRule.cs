namespace CoatScan.Diagnosis;

/// <summary>How long a young finish waits before an operation; common practice, not product data.</summary>
/// <param name="Operations">Ids of the operations.</param>
/// <param name="NotBeforeDays">Earliest, days after the finish was applied.</param>
/// <param name="BetterDays">Better from, days after.</param>
/// <param name="Text">The rule in words.</param>
/// <param name="WhenAny">Holds only where one of these is present; null for always.</param>
/// <param name="UnlessAny">Holds only where none of these is present; null for always.</param>
public sealed record WaitRule(
    IReadOnlyList<string> Operations,
    int NotBeforeDays,
    int BetterDays,
    string Text,
    IReadOnlyList<string>? WhenAny = null,
    IReadOnlyList<string>? UnlessAny = null);
