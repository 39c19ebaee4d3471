using System.Runtime.InteropServices;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Advanced;
using SixLabors.ImageSharp.Formats;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.Imaging;

/// <summary>The image library's part of decoding: what it makes of bytes that were checked before.</summary>
internal static class PixelDecoder
{
    /// <summary>Asks the library for the size of a photo.</summary>
    /// <exception cref="Findings.CoatScanException">PHOTO_UNREADABLE: it is another than the structure says.</exception>
    public static void Identify(ReadOnlyMemory<byte> still, bool isPng, int widthPx, int heightPx, CancellationToken cancellationToken)
    {
        using MemoryStream stream = AsStream(still);
        IImageInfoDetector detector = isPng
            ? new PngDecoder { IgnoreMetadata = true }
            : new JpegDecoder { IgnoreMetadata = true };
        IImageInfo? info = detector.Identify(DecoderConfiguration.Instance, stream, cancellationToken);
        if (info is null || info.Width != widthPx || info.Height != heightPx)
        {
            throw Refusal.Unreadable("its size is not what its structure says");
        }
    }

    /// <summary>Decodes a photo.</summary>
    /// <exception cref="Findings.CoatScanException">PHOTO_COLOR_MODEL_NOT_ALLOWED: a pixel lets through what is behind it.</exception>
    public static Image<Rgb24> Decode(ReadOnlyMemory<byte> still, bool isPng, bool hasAlpha, CancellationToken cancellationToken)
    {
        IImageDecoder decoder = isPng
            ? new PngDecoder { IgnoreMetadata = true }
            : new JpegDecoder { IgnoreMetadata = true };
        return hasAlpha
            ? DecodeOpaque(still, decoder, cancellationToken)
            : DecodeAs<Rgb24>(still, decoder, cancellationToken);
    }

    private static Image<Rgb24> DecodeOpaque(
        ReadOnlyMemory<byte> still, IImageDecoder decoder, CancellationToken cancellationToken)
    {
        using Image<Rgba32> image = DecodeAs<Rgba32>(still, decoder, cancellationToken);
        for (int y = 0; y < image.Height; y++)
        {
            foreach (Rgba32 pixel in image.DangerousGetPixelRowMemory(y).Span)
            {
                if (pixel.A != byte.MaxValue)
                {
                    throw Refusal.Transparent();
                }
            }
        }

        return image.CloneAs<Rgb24>(DecoderConfiguration.Instance);
    }

    private static Image<TPixel> DecodeAs<TPixel>(
        ReadOnlyMemory<byte> still, IImageDecoder decoder, CancellationToken cancellationToken)
        where TPixel : unmanaged, IPixel<TPixel>
    {
        using MemoryStream stream = AsStream(still);
        return decoder.Decode<TPixel>(DecoderConfiguration.Instance, stream, cancellationToken);
    }

    private static MemoryStream AsStream(ReadOnlyMemory<byte> bytes) =>
        MemoryMarshal.TryGetArray(bytes, out ArraySegment<byte> array)
            ? new MemoryStream(array.Array!, array.Offset, array.Count, writable: false)
            : new MemoryStream(bytes.ToArray(), writable: false);
}
