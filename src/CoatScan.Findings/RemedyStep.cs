namespace CoatScan.Findings;

/// <summary>One step of a remedy.</summary>
/// <param name="Operation">Id of the operation.</param>
/// <param name="Action">What to do.</param>
/// <param name="StopIf">When to stop here.</param>
/// <param name="Wait">How long to wait before or after; null if no wait is known.</param>
/// <param name="Hours">Labor range; null if none is known.</param>
public sealed record RemedyStep(string Operation, string Action, string StopIf, string? Wait, HourRange? Hours)
{
    /// <summary>What the hours are for; empty for one mid-size panel or without hours.</summary>
    public string HoursFor { get; init; } = "";

    /// <summary>Materials as plain ranges; empty if none are known.</summary>
    public string Materials { get; init; } = "";

    /// <summary>Id of the condition that the step is for.</summary>
    public string Condition { get; init; } = "";

    /// <summary>Earliest day, where the finish is young and its day of application is known; else null.</summary>
    public DateOnly? NotBefore { get; init; }

    /// <summary>Day from which it is better; null as <see cref="NotBefore"/>.</summary>
    public DateOnly? BetterFrom { get; init; }

    /// <summary>Film that the step spends, micrometers, as a range; null if it spends none or it is not known.</summary>
    public FilmSpend? SpendsUm { get; init; }
}
