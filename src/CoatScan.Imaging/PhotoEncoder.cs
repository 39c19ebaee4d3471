using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.Imaging;

/// <summary>Writes 8-bit sRGB pixels as JPEG or PNG, without metadata.</summary>
/// <remarks>Deterministic: equal pixels and quality give equal bytes.</remarks>
public static class PhotoEncoder
{
    /// <summary>Writes a baseline JPEG: YCbCr, chroma at half resolution.</summary>
    /// <param name="rgb">Red, green, blue of every pixel, row by row; 3 x width x height bytes.</param>
    /// <param name="width">Width, pixels, [1, 65,535].</param>
    /// <param name="height">Height, pixels, [1, 65,535].</param>
    /// <param name="quality">Quality, [1, 100].</param>
    /// <exception cref="ArgumentException">The length of <paramref name="rgb"/> does not fit the size.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A size or the quality is outside its range.</exception>
    public static byte[] EncodeJpeg(ReadOnlySpan<byte> rgb, int width, int height, int quality)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(quality, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(quality, 100);
        return Encode(rgb, width, height, new JpegEncoder
        {
            Quality = quality,
            ColorType = JpegColorType.YCbCrRatio420,
        });
    }

    /// <summary>Writes a PNG with 8 bits a channel.</summary>
    /// <param name="rgb">Red, green, blue of every pixel, row by row; 3 x width x height bytes.</param>
    /// <param name="width">Width, pixels, [1, 65,535].</param>
    /// <param name="height">Height, pixels, [1, 65,535].</param>
    /// <exception cref="ArgumentException">The length of <paramref name="rgb"/> does not fit the size.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A size is outside its range.</exception>
    public static byte[] EncodePng(ReadOnlySpan<byte> rgb, int width, int height) =>
        Encode(rgb, width, height, new PngEncoder { ColorType = PngColorType.Rgb, BitDepth = PngBitDepth.Bit8 });

    private static byte[] Encode(ReadOnlySpan<byte> rgb, int width, int height, IImageEncoder encoder)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, 65_535);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, 65_535);
        if (rgb.Length != 3L * width * height)
        {
            throw new ArgumentException($"{rgb.Length} bytes are not {width} x {height} RGB pixels.", nameof(rgb));
        }

        using var image = Image.LoadPixelData<Rgb24>(DecoderConfiguration.Instance, rgb, width, height);
        using var stream = new MemoryStream();
        image.Save(stream, encoder);
        return stream.ToArray();
    }
}
