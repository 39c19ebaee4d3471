namespace CoatScan.Training.Evaluation;

/// <summary>A figure with its 95 % bootstrap interval.</summary>
internal sealed record Interval(double Value, double Low, double High);
