using CoatScan.Findings;
using CoatScan.Imaging.Children;
using CoatScan.Imaging.Jpeg;
using CoatScan.Imaging.Png;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.Imaging;

/// <summary>Decodes JPEG and PNG photos from strangers, cheapest check first, and refuses everything else with a reason.</summary>
/// <remarks>
/// <para>Order: bytes, first bytes, structure, the library's own idea of the size, limits, compressed data, pixels. No pixel memory
/// is taken before every limit has been checked, so that a small file cannot claim gigabytes.</para>
/// <para>A PNG with alpha is taken if every pixel is opaque, and refused otherwise: what stood behind a transparent pixel of a panel
/// is unknown, and any color put there would be measured as paint. 16-bit samples are rounded to 8 bits.</para>
/// <para>Thread safe.</para>
/// </remarks>
public sealed class GuardedPhotoDecoder : IPhotoDecoder
{
    private static ReadOnlySpan<byte> PngSignature => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    private readonly ImagingOptions _options;
    private readonly MegapixelGate? _gate;
    private readonly ChildDecoders? _children;

    /// <summary>A decoder with these limits.</summary>
    /// <param name="options">What a photo may cost.</param>
    /// <param name="gate">Bounds what all photos together cost at a time; null where one is decoded after the other.</param>
    /// <param name="children">Processes that the image library runs in; null to run it in this one.</param>
    /// <exception cref="ArgumentOutOfRangeException">A limit is outside its range.</exception>
    public GuardedPhotoDecoder(ImagingOptions options, MegapixelGate? gate = null, ChildDecoders? children = null)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.Validate();
        _options = options;
        _gate = gate;
        _children = children;
    }

    /// <inheritdoc/>
    public DecodedPhoto Decode(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        try
        {
            return DecodeGuarded(bytes, cancellationToken);
        }
        catch (Exception e) when (e is not (CoatScanException or OutOfMemoryException or OperationCanceledException))
        {
            // The image library throws exceptions of many kinds at damaged files. This is the only broad catch of the code base.
            throw Refusal.Unreadable("its data is damaged", e);
        }
    }

    private DecodedPhoto DecodeGuarded(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        if (bytes.Length > _options.MaxPhotoBytes)
        {
            throw Refusal.TooLarge("file size", " bytes", bytes.Length, _options.MaxPhotoBytes);
        }

        if (bytes.IsEmpty)
        {
            throw Refusal.Unreadable("it is empty");
        }

        PhotoStructure structure = Scan(bytes, cancellationToken);
        ReadOnlyMemory<byte> still = bytes[..structure.LengthBytes];
        bool isPng = structure is PngStructure;
        if (_children is null)
        {
            PixelDecoder.Identify(still, isPng, structure.WidthPx, structure.HeightPx, cancellationToken);
        }

        RequireLimits(structure);
        BlockMeans? means = structure.CheckData(still, cancellationToken);

        IDisposable? place = _gate?.Enter((double)structure.WidthPx * structure.HeightPx / 1e6, cancellationToken);
        try
        {
            Image<Rgb24> image = _children is null
                ? PixelDecoder.Decode(still, isPng, structure.HasAlpha, cancellationToken)
                : _children.Decode(
                    new DecodeRequest(isPng, structure.HasAlpha, structure.WidthPx, structure.HeightPx, still.Length), still, cancellationToken);
            return new DecodedPhoto(image, structure.Exif, structure.ColorSpace)
            {
                Quantizer = structure.Quantizer,
                Means = means,
                Place = place,
            };
        }
        catch
        {
            place?.Dispose();
            throw;
        }
    }

    private PhotoStructure Scan(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        ReadOnlySpan<byte> start = bytes.Span;
        if (start.StartsWith(PngSignature))
        {
            return new PngScanner(bytes, _options).Scan(cancellationToken);
        }

        return start.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF])
            ? new JpegScanner(bytes, _options).Scan(cancellationToken)
            : throw ForeignFormat.Refuse(start);
    }

    private void RequireLimits(PhotoStructure structure)
    {
        int longer = Math.Max(structure.WidthPx, structure.HeightPx);
        int shorter = Math.Min(structure.WidthPx, structure.HeightPx);
        if (longer > _options.MaxSidePx)
        {
            throw Refusal.TooLarge("longer side", " px", longer, _options.MaxSidePx);
        }

        double megapixels = (double)longer * shorter / 1e6;
        if (megapixels > _options.MaxMegapixels)
        {
            throw Refusal.TooLarge("pixel count", " million", megapixels, _options.MaxMegapixels);
        }

        double aspect = (double)longer / shorter;
        if (aspect > _options.MaxAspect)
        {
            throw Refusal.TooLarge("ratio of the sides", "", aspect, _options.MaxAspect);
        }
    }
}
