namespace CoatScan.Findings;

/// <summary>A point of a line on a photo.</summary>
/// <param name="XPx">Across, pixels of the original photo.</param>
/// <param name="YPx">Down, pixels.</param>
public sealed record OutlinePoint(double XPx, double YPx);
