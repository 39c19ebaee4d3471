using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.Reports;

/// <summary>A photo as it goes on a sheet: turned upright, reduced, sRGB, encoded anew without any metadata.</summary>
/// <param name="Sha256">Digest of the bytes that it was made from, lower-case hex: it goes only with the photo of the same digest.</param>
/// <param name="Jpeg">The reduced picture.</param>
/// <param name="WidthPx">Width of the original after orientation, pixels: the unit of regions.</param>
/// <param name="HeightPx">Height of the original after orientation, pixels.</param>
public sealed record SheetPhoto(string Sha256, ReadOnlyMemory<byte> Jpeg, int WidthPx, int HeightPx)
{
    // On paper a picture is at most 180 mm wide: 170 pixels an inch there.
    private const int LongestSidePx = 1200;
    private const int Quality = 82;

    private static readonly GuardedPhotoDecoder Decoder = new(new ImagingOptions());

    /// <summary>Address of the picture, where a page loads it from there; empty where <see cref="Jpeg"/> is at hand.</summary>
    public string Href { get; init; } = "";

    /// <summary>A picture that a page loads from an address.</summary>
    /// <param name="photo">The photo of the finding.</param>
    /// <param name="href">The address.</param>
    public static SheetPhoto At(PhotoReport photo, string href)
    {
        ArgumentNullException.ThrowIfNull(photo);
        return new(photo.Sha256, ReadOnlyMemory<byte>.Empty, photo.WidthPx, photo.HeightPx) { Href = href };
    }

    /// <summary>Makes the picture of a photo.</summary>
    /// <param name="bytes">The photo as it was sent.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <exception cref="CoatScanException">The photo cannot be read.</exception>
    public static SheetPhoto Of(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        using DecodedPhoto photo = Decoder.Decode(bytes, cancellationToken);
        return new(
            Convert.ToHexStringLower(SHA256.HashData(bytes.Span)),
            PhotoCopy.ToJpeg(photo, LongestSidePx, Quality, cancellationToken),
            photo.WidthPx,
            photo.HeightPx);
    }
}
