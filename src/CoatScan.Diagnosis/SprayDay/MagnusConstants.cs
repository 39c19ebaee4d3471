namespace CoatScan.Diagnosis;

/// <summary>Constants of the Magnus formula over water.</summary>
/// <param name="B">Dimensionless.</param>
/// <param name="C">Celsius.</param>
public sealed record MagnusConstants(double B, double C);
