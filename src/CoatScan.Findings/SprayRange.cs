namespace CoatScan.Findings;

/// <summary>A range of a setting.</summary>
/// <param name="Low">Lower end, 0 or more.</param>
/// <param name="High">Upper end, at least <paramref name="Low"/>.</param>
public sealed record SprayRange(double Low, double High);
