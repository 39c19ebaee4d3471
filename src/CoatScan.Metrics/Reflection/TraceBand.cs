namespace CoatScan.Metrics.Reflection;

/// <summary>Strength of one octave band of the traces of all edges of a panel.</summary>
/// <param name="SlopeRms">Root mean square of the band's slope along the edge, px per px, noise taken off.</param>
/// <param name="ShiftRmsPx">Root mean square of the band's shift across the edge, pixels, noise taken off.</param>
/// <param name="RelativeSpread">95 % half width from the spread of the stretches, share of the value.</param>
/// <param name="SlopeFloor">95 % half width from noise and interpolation, px per px.</param>
/// <param name="ShiftFloorPx">95 % half width from noise and interpolation, pixels.</param>
internal sealed record TraceBand(
    double SlopeRms, double ShiftRmsPx, double RelativeSpread, double SlopeFloor, double ShiftFloorPx);
