namespace CoatScan.Findings;

/// <summary>Whether the dates that the caller gave fit the condition.</summary>
/// <param name="Class">How the condition comes about.</param>
/// <param name="Fits">What fits.</param>
/// <param name="DoesNotFit">What does not fit.</param>
public sealed record Timing(TimingClass Class, IReadOnlyList<string> Fits, IReadOnlyList<string> DoesNotFit)
{
    /// <summary>Nothing can be said.</summary>
    public static Timing CannotTell { get; } = new(TimingClass.CannotTell, [], []);
}
