namespace CoatScan.Metrics.Quality;

/// <summary>How sharp the sharpest edges of a photo are.</summary>
/// <param name="EdgeBlurPx">Standard deviation of the Gaussian that blurs the sharpest fifth of the edges at most, pixels of
/// the plane measured, 0 to 8; a step between two pixels reads about 0.5.</param>
/// <param name="EdgePixels">Edge pixels that it rests on.</param>
/// <param name="BlurHalfWidth">95 % half width of the blur, pixels: the values a quantile's rank may as well have named (normal form of the
/// binomial), for an eighth of the pixels, since pixels of one edge agree.</param>
public readonly record struct SharpnessReading(double EdgeBlurPx, int EdgePixels, double BlurHalfWidth = 0.0)
{
    /// <summary>Distance over which such an edge rises from 10 % to 90 %, pixels: 2 x 1.28155 sigma, the quantiles of a Gaussian.</summary>
    public double EdgeRisePx => 2.5631 * EdgeBlurPx;

    /// <summary>Modulation that this blur leaves of a pattern of wavelength 8 px, (0, 1]: exp(-2 pi^2 sigma^2 / 64).</summary>
    /// <remarks>Source: Fourier transform of a Gaussian, as used with ISO 12233 edges. 1 is sharp; 0.29 at 2 px of blur.</remarks>
    public double ModulationAt8Px => Modulation(EdgeBlurPx);

    /// <summary>95 % half width of <see cref="ModulationAt8Px"/>: the farther end of the blur's interval.</summary>
    public double ModulationHalfWidth => Math.Max(
        Modulation(Math.Max(0.0, EdgeBlurPx - BlurHalfWidth)) - ModulationAt8Px, ModulationAt8Px - Modulation(EdgeBlurPx + BlurHalfWidth));

    private static double Modulation(double blurPx) => Math.Exp(-2.0 * Math.PI * Math.PI * blurPx * blurPx / 64.0);
}
