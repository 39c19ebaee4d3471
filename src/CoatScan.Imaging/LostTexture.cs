using CoatScan.Imaging.Jpeg;

namespace CoatScan.Imaging;

/// <summary>Amplitude of fine texture, at working size, below which codings lost it; codes of 0 to 255, 0 for none.</summary>
/// <param name="InFileCodes">Lost by the coding of the file itself, by its quantizer.</param>
/// <param name="EarlierCodes">Lost by an earlier one, by the pixels.</param>
internal readonly record struct LostTexture(double InFileCodes, double EarlierCodes)
{
    // Wavelength at which fine texture begins, pixels at working size. No source.
    private const double FineWavelengthPx = 6;

    /// <summary>Measures a photo.</summary>
    /// <param name="photo">The photo as stored.</param>
    /// <param name="originalPxPerPx">Pixels of the original per pixel at working size.</param>
    public static LostTexture Of(DecodedPhoto photo, double originalPxPerPx)
    {
        double wavelengthPx = FineWavelengthPx * originalPxPerPx;
        return new LostTexture(photo.Quantizer?.LostAmplitudeAt(wavelengthPx) ?? 0, EarlierCoding.LostAmplitude(photo, wavelengthPx));
    }
}
