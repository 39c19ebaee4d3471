namespace CoatScan.Metrics.Quality;

/// <summary>How a photo is exposed.</summary>
/// <param name="ClippedFraction">Share of pixels that were clipped to white, [0, 1].</param>
/// <param name="LargestClippedFraction">Share of all pixels in the largest connected clipped area, [0, 1].</param>
/// <param name="MeanLightness">Mean CIE L*, [0, 100].</param>
/// <param name="DarkLightness">5th percentile of L*.</param>
/// <param name="MedianLightness">Median of L*.</param>
/// <param name="BrightLightness">95th percentile of L*.</param>
public readonly record struct ExposureReading(
    double ClippedFraction,
    double LargestClippedFraction,
    double MeanLightness,
    double DarkLightness,
    double MedianLightness,
    double BrightLightness);
