using System.Buffers.Binary;
using CoatScan.Imaging.Jpeg;

namespace CoatScan.Imaging;

/// <summary>What the first bytes of a photo say it is; nothing is decoded, and nothing is promised.</summary>
public static class PhotoHeader
{
    private const int PngSizeOffset = 16;
    private const int JpegSizeOffset = 3;

    private static ReadOnlySpan<byte> PngSignature => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Millions of pixels that a photo claims to have, above 0; null if it does not say, or is no JPEG or PNG.</summary>
    /// <remarks>For planning only: the decoder does not rely on it. Reads the segments before the picture, no more.</remarks>
    public static double? Megapixels(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith(PngSignature))
        {
            return bytes.Length < PngSizeOffset + 8
                ? null
                : Product(BinaryPrimitives.ReadUInt32BigEndian(bytes[PngSizeOffset..]), BinaryPrimitives.ReadUInt32BigEndian(bytes[(PngSizeOffset + 4)..]));
        }

        return bytes is [0xFF, 0xD8, ..] ? JpegMegapixels(bytes) : null;
    }

    private static double? JpegMegapixels(ReadOnlySpan<byte> bytes)
    {
        for (var at = 2; at + 4 <= bytes.Length && bytes[at] == 0xFF;)
        {
            var marker = bytes[at + 1];
            if (marker == 0xFF)
            {
                // Any number of fill bytes may stand before a marker.
                at++;
                continue;
            }

            var segment = bytes[(at + 2)..];
            if (JpegMarker.IsFrame(marker))
            {
                return segment.Length < JpegSizeOffset + 4
                    ? null
                    : Product(BinaryPrimitives.ReadUInt16BigEndian(segment[JpegSizeOffset..]), BinaryPrimitives.ReadUInt16BigEndian(segment[(JpegSizeOffset + 2)..]));
            }

            at += 2 + Math.Max((ushort)2, BinaryPrimitives.ReadUInt16BigEndian(segment));
        }

        return null;
    }

    private static double? Product(uint width, uint height) => width == 0 || height == 0 ? null : width * (double)height / 1e6;
}
