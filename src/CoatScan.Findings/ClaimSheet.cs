namespace CoatScan.Findings;

/// <summary>What an adjuster needs beside the finding: whether the dates fit, and what to ask. It decides nothing.</summary>
public sealed record ClaimSheet
{
    /// <summary>Nothing to say.</summary>
    public static ClaimSheet None { get; } = new();

    /// <summary>Whether what was said of the dates fits how the condition comes about.</summary>
    public DatesFit Dates { get; init; } = DatesFit.CannotTell;

    /// <summary>The same in one sentence.</summary>
    public string DatesText { get; init; } = "";

    /// <summary>Questions to ask, most telling first.</summary>
    public IReadOnlyList<string> Questions { get; init; } = [];

    /// <summary>What would show that it is older than stated; empty where nothing would.</summary>
    public string SignsOfAge { get; init; } = "";
}
