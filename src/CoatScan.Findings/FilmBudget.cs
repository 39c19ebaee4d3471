namespace CoatScan.Findings;

/// <summary>How much film polishing and sanding may take, by the readings.</summary>
/// <param name="LowUm">The reading it is judged by, micrometers: the lowest of the panel.</param>
/// <param name="AllowanceUm">Most that may be taken in all, micrometers; 0 for none; null where readings cannot say.</param>
/// <param name="FaultDepthUm">Stated depth of the fault, micrometers; null if unknown.</param>
/// <param name="Text">The same in words.</param>
public sealed record FilmBudget(double LowUm, double? AllowanceUm, double? FaultDepthUm, string Text);
