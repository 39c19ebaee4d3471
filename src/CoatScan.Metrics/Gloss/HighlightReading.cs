namespace CoatScan.Metrics.Gloss;

/// <summary>Shape of the largest highlight.</summary>
/// <param name="Softness">Flank width over size, [0, 1]: 0 an ideal edge, 1 a Gaussian blob without any edge.</param>
/// <param name="HalfWidthPx">Half of its shorter axis at half height, pixels of the plane measured.</param>
internal readonly record struct HighlightReading(double Softness, double HalfWidthPx);
