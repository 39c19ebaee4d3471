namespace CoatScan.Metrics;

/// <summary>Scale of the planes and how well it is known.</summary>
/// <param name="MmPerPx">Millimeters per pixel, above 0.</param>
/// <param name="RelativeUncertainty">95 % half width as a share of the scale, 0 or more.</param>
internal readonly record struct LengthScale(double MmPerPx, double RelativeUncertainty);
