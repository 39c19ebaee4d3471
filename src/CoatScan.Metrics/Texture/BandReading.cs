namespace CoatScan.Metrics.Texture;

/// <summary>Strength of one octave band of a plane.</summary>
/// <param name="ShortestPx">Shorter cutoff wavelength, pixels of the plane measured.</param>
/// <param name="MedianRms">Median over the tiles of the band's root mean square, in the plane's unit.</param>
/// <param name="MeanRms">Root mean square over all tiles.</param>
/// <param name="HighRms">90th percentile over the tiles.</param>
/// <param name="StandardError">Standard error of <paramref name="MedianRms"/> from the scatter of the tiles.</param>
/// <param name="Tiles">Tiles that were not excluded, at least 1.</param>
internal sealed record BandReading(
    double ShortestPx,
    double MedianRms,
    double MeanRms,
    double HighRms,
    double StandardError,
    int Tiles);
