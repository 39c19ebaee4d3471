namespace CoatScan.Metrics.Quality;

/// <summary>How sharp the sharpest edges of a photo are.</summary>
/// <param name="EdgeBlurPx">Standard deviation of the Gaussian that blurs the sharpest fifth of the edges at most, pixels of
/// the plane measured, 0 to 8; a step between two pixels reads about 0.5.</param>
/// <param name="EdgePixels">Edge pixels that it rests on.</param>
public readonly record struct SharpnessReading(double EdgeBlurPx, int EdgePixels)
{
    /// <summary>Distance over which such an edge rises from 10 % to 90 %, pixels: 2 x 1.28155 sigma, the quantiles of a Gaussian.</summary>
    public double EdgeRisePx => 2.5631 * EdgeBlurPx;

    /// <summary>Modulation that this blur leaves of a pattern of wavelength 8 px, (0, 1]: exp(-2 pi^2 sigma^2 / 64).</summary>
    /// <remarks>Source: Fourier transform of a Gaussian, as used with ISO 12233 edges. 1 is sharp; 0.29 at 2 px of blur.</remarks>
    public double ModulationAt8Px => Math.Exp(-2.0 * Math.PI * Math.PI * EdgeBlurPx * EdgeBlurPx / 64.0);
}
