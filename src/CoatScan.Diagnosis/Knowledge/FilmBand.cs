namespace CoatScan.Diagnosis;

/// <summary>One band of the film budget.</summary>
/// <param name="UpToUm">Readings up to here, micrometers.</param>
/// <param name="Forbids">Ids of operations that the band rules out.</param>
/// <param name="Text">The band in words.</param>
/// <param name="AllowanceUm">Most that may be taken in all, micrometers; null where readings cannot say.</param>
public sealed record FilmBand(double UpToUm, IReadOnlyList<string> Forbids, string Text, double? AllowanceUm = null);
