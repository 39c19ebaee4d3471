using CoatScan.Imaging.Color;

namespace CoatScan.Imaging;

/// <summary>The few facts that are read from EXIF data.</summary>
/// <param name="Orientation">Tag 0x0112, [1, 8]; 1 if absent or out of range.</param>
/// <param name="CaptureTime">Tag 0x9003 as ISO 8601, with the offset of tag 0x9011; null if absent or malformed.</param>
/// <param name="IsAdobeRgb">The photo says that it is Adobe RGB (1998), without a profile.</param>
internal sealed record ExifFacts(int Orientation, string? CaptureTime, bool IsAdobeRgb)
{
    /// <summary>The color space of a photo that carries no profile.</summary>
    public PhotoColorSpace UntaggedColorSpace => IsAdobeRgb ? PhotoColorSpace.AdobeRgb : PhotoColorSpace.Srgb;

    public static ExifFacts None { get; } = new(1, null, false);
}
