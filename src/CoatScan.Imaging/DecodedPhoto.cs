using System.Runtime.InteropServices;
using CoatScan.Imaging.Color;
using CoatScan.Imaging.Jpeg;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Advanced;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.Imaging;

/// <summary>A decoded photo at full size: 8 bits a channel, in the order and color space in which the camera stored it.</summary>
/// <remarks>
/// Neither rotated nor converted here: both are done while the photo is reduced, so that no second copy at full size is needed.
/// Of the metadata only orientation, color space and capture time are kept; place, owner, serial numbers and maker notes are
/// never read.
/// </remarks>
public sealed class DecodedPhoto : IDisposable
{
    private readonly Image<Rgb24> _image;

    internal DecodedPhoto(Image<Rgb24> image, ExifFacts exif, PhotoColorSpace colorSpace)
    {
        _image = image;
        Orientation = exif.Orientation;
        CaptureTime = exif.CaptureTime;
        ColorSpace = colorSpace;
    }

    /// <summary>Width as stored, pixels.</summary>
    public int StoredWidthPx => _image.Width;

    /// <summary>Height as stored, pixels.</summary>
    public int StoredHeightPx => _image.Height;

    /// <summary>EXIF orientation, [1, 8]; 1 if the photo states none.</summary>
    public int Orientation { get; }

    /// <summary>Width after orientation, pixels.</summary>
    public int WidthPx => Orientation >= 5 ? StoredHeightPx : StoredWidthPx;

    /// <summary>Height after orientation, pixels.</summary>
    public int HeightPx => Orientation >= 5 ? StoredWidthPx : StoredHeightPx;

    /// <summary>Capture time as the camera wrote it, ISO 8601, with an offset if it wrote one; null if absent or malformed.</summary>
    public string? CaptureTime { get; }

    /// <summary>Name of the color space of the pixels, for example "sRGB" or "embedded profile".</summary>
    public string ColorSpaceName => ColorSpace.Name;

    internal PhotoColorSpace ColorSpace { get; }

    internal QuantizerSteps? Quantizer { get; init; }

    internal BlockMeans? Means { get; init; }

    /// <summary>Its room among the photos decoded at a time; given back with the pixels.</summary>
    internal IDisposable? Place { get; init; }

    /// <summary>Wraps sRGB pixels that need no decoding.</summary>
    /// <param name="rgb">Red, green, blue of every pixel, row by row; not copied, so leave it unchanged.</param>
    /// <param name="widthPx">Width as stored, pixels.</param>
    /// <param name="heightPx">Height as stored, pixels.</param>
    /// <param name="orientation">EXIF orientation, [1, 8].</param>
    /// <exception cref="ArgumentException">The length does not fit the size, or an argument is out of range.</exception>
    public static DecodedPhoto FromRgb(byte[] rgb, int widthPx, int heightPx, int orientation = 1)
    {
        ArgumentNullException.ThrowIfNull(rgb);
        ArgumentOutOfRangeException.ThrowIfLessThan(widthPx, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(heightPx, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(orientation, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(orientation, 8);
        if (rgb.Length != 3L * widthPx * heightPx)
        {
            throw new ArgumentException($"{rgb.Length} bytes are not {widthPx} x {heightPx} RGB pixels.", nameof(rgb));
        }

        var image = Image.WrapMemory<Rgb24>(DecoderConfiguration.Instance, rgb, widthPx, heightPx);
        return new DecodedPhoto(image, ExifFacts.None with { Orientation = orientation }, PhotoColorSpace.Srgb);
    }

    /// <summary>Red, green, blue of the pixels of row y as stored.</summary>
    public ReadOnlySpan<byte> StoredRow(int y) => MemoryMarshal.AsBytes(_image.DangerousGetPixelRowMemory(y).Span);

    /// <summary>Gives the pixels back.</summary>
    public void Dispose()
    {
        _image.Dispose();
        Place?.Dispose();
    }
}
