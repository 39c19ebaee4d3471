namespace CoatScan.Findings;

/// <summary>Film that an operation takes away.</summary>
/// <param name="Low">Lower end, micrometers, 0 or more.</param>
/// <param name="High">Upper end, micrometers, at least <paramref name="Low"/>.</param>
public sealed record FilmSpend(double Low, double High);
