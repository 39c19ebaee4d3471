namespace CoatScan.Training.Evaluation;

/// <summary>What is wrong when only the surest answers are given.</summary>
/// <param name="Coverage">Share of the photos that are answered, the surest first, (0, 1].</param>
/// <param name="Confidence">Confidence from which on they are answered.</param>
/// <param name="Risk">Share of wrong answers among them, [0, 1].</param>
internal sealed record RiskPoint(double Coverage, double Confidence, double Risk);
