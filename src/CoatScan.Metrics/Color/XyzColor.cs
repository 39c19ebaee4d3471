namespace CoatScan.Metrics.Color;

/// <summary>CIE 1931 tristimulus values, scaled so that the D65 white has Y = 1.</summary>
/// <param name="X">X, 0 to about 0.9505 inside sRGB.</param>
/// <param name="Y">Y, the relative luminance, [0, 1] inside sRGB.</param>
/// <param name="Z">Z, 0 to about 1.0891 inside sRGB.</param>
public readonly record struct XyzColor(double X, double Y, double Z);
