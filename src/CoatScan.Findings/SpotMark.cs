namespace CoatScan.Findings;

/// <summary>One spot that was counted, where it lies in the photo.</summary>
/// <param name="CenterXPx">Center across, pixels of the original photo.</param>
/// <param name="CenterYPx">Center down, pixels.</param>
/// <param name="DiameterPx">Diameter of the disk of equal area, pixels.</param>
public sealed record SpotMark(double CenterXPx, double CenterYPx, double DiameterPx);
