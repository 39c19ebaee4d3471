namespace CoatScan.Findings;

/// <summary>What to do, least invasive first, and what not to do.</summary>
/// <param name="Steps">Steps in order; climb one at a time.</param>
/// <param name="MustNot">What is wrong for the condition.</param>
public sealed record Remedy(IReadOnlyList<RemedyStep> Steps, IReadOnlyList<MustNot> MustNot)
{
    /// <summary>Nothing to do.</summary>
    public static Remedy None { get; } = new([], []);
}
