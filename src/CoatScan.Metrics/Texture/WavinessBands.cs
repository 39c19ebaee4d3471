using System.Globalization;

namespace CoatScan.Metrics.Texture;

/// <summary>The octave bands in which waviness is given, their names, and the reasons that both methods share.</summary>
/// <remarks>
/// The bands in millimeters follow what the eye sees at 0.5 m to 3 m: 0.6 mm to 19.2 mm. Limits are our own. A name holds the
/// method and the limits: <c>waviness_edge_8_16_px</c>, <c>waviness_contrast_1_2_to_2_4_mm</c>.
/// </remarks>
internal static class WavinessBands
{
    internal const string Edge = "edge";
    internal const string Contrast = "contrast";

    internal const string NothingToReflect =
        "nothing to reflect: the surroundings are uniform, so waviness cannot show";

    internal const string InMillimeters = "the scale is known: see the bands in millimeters";

    internal const double ShortestUsablePx = 4.0;

    internal static readonly double[] ShortestPx = [4, 8, 16, 32, 64];
    internal static readonly double[] ShortestMm = [0.6, 1.2, 2.4, 4.8, 9.6];

    internal static string PixelMetric(string method, double shortestPx) => string.Create(
        CultureInfo.InvariantCulture, $"waviness_{method}_{shortestPx}_{2.0 * shortestPx}_px");

    /// <summary>Decimal points become underscores: 1.2 mm to 2.4 mm is <c>1_2_to_2_4_mm</c>.</summary>
    internal static string MmMetric(string method, double shortestMm) => string.Create(
        CultureInfo.InvariantCulture,
        $"waviness_{method}_{shortestMm:0.0}_to_{2.0 * shortestMm:0.0}_mm").Replace('.', '_');

    internal static string NotResolved(double wavelengthPx) => string.Create(
        CultureInfo.InvariantCulture,
        $"the photo does not resolve this wavelength: {wavelengthPx:0.0} px, {ShortestUsablePx:0} px are needed");

    /// <summary>95 % half width from the blur of the photo: the share of a wave in the middle of the band that it
    /// takes.</summary>
    /// <remarks>
    /// exp(-2 pi^2 s^2 / L^2) of a sine is left behind a Gaussian of s (Fourier transform of a Gaussian, as with ISO 12233
    /// edges); the values are not raised by it, since not every photo has an edge that tells s. Without one, half a pixel:
    /// what sampling alone does.
    /// </remarks>
    internal static double LostToBlur(double shortestPx, double? blurPx)
    {
        var blur = Math.Max(LeastBlurPx, blurPx ?? LeastBlurPx);
        return 1.0 - Math.Exp(-Math.PI * Math.PI * blur * blur / (shortestPx * shortestPx));
    }

    private const double LeastBlurPx = 0.5;
}
