namespace CoatScan.Metrics.Reflection;

/// <summary>One point of an edge: where the slope across it is steepest, and the direction toward the bright side.</summary>
/// <param name="X">Column, pixels.</param>
/// <param name="Y">Row, pixels.</param>
/// <param name="ToBrightX">Unit vector toward the bright side, column part.</param>
/// <param name="ToBrightY">Unit vector toward the bright side, row part.</param>
internal readonly record struct EdgePoint(float X, float Y, float ToBrightX, float ToBrightY);
