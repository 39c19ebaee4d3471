namespace CoatScan.Metrics.Zones;

/// <summary>Cells of one color, at its limits and with the limits moved out and in.</summary>
/// <param name="Nominal">Cells inside the limits.</param>
/// <param name="Loose">Cells inside wider limits, at least as many.</param>
/// <param name="Strict">Cells inside narrower limits, at most as many.</param>
/// <param name="RimCells">Length of the rims, cells.</param>
internal readonly record struct ColorShare(double Nominal, double Loose, double Strict, double RimCells);
