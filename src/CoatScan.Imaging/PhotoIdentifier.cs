using CoatScan.Findings;
using CoatScan.Imaging.Normalizing;
using CoatScan.Metrics.Quality;

namespace CoatScan.Imaging;

/// <summary>Decodes a photo to know that it can be decoded, and what picture it is.</summary>
/// <remarks>Deterministic. Thread safe if the decoder is.</remarks>
public sealed class PhotoIdentifier(IPhotoDecoder decoder)
{
    /// <summary>Identifies one photo.</summary>
    /// <param name="bytes">The photo as it was received.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <exception cref="CoatScanException">The photo is refused.</exception>
    public PhotoIdentity Identify(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        using DecodedPhoto decoded = decoder.Decode(bytes, cancellationToken);

        // What was decoded is JPEG or PNG, and only a JPEG begins so.
        string mediaType = bytes.Span[0] == 0xFF ? "image/jpeg" : "image/png";
        return new PhotoIdentity(mediaType, decoded.WidthPx, decoded.HeightPx, decoded.CaptureTime, HashOf(decoded));
    }

    internal static ulong? HashOf(DecodedPhoto decoded) =>
        GrayThumbnail.Of(decoded, PictureHash.SidePx) is { } gray ? PictureHash.Of(gray) : null;
}
