namespace CoatScan.Findings;

/// <summary>A range of labor hours: a range, not a quote.</summary>
/// <param name="Low">Lower end, hours, 0 or more.</param>
/// <param name="High">Upper end, hours, at least <paramref name="Low"/>.</param>
public sealed record HourRange(double Low, double High);
