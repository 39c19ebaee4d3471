namespace CoatScan.Findings;

/// <summary>What the film readings of one panel say.</summary>
/// <param name="Panel">The caller's name of the panel; empty for the panel of the finding when it has no name.</param>
/// <param name="Count">Number of readings.</param>
/// <param name="LowUm">Lowest reading, micrometers.</param>
/// <param name="MedianUm">Median, micrometers.</param>
/// <param name="HighUm">Highest reading, micrometers.</param>
/// <param name="Class">What they point to.</param>
/// <param name="Uneven">Whether the panel is uneven in itself or stands out from the other panels.</param>
/// <param name="Text">The same in words.</param>
public sealed record FilmMapEntry(
    string Panel,
    int Count,
    double LowUm,
    double MedianUm,
    double HighUm,
    FilmClass Class,
    bool Uneven,
    string Text);
