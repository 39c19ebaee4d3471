using CoatScan.Imaging.Color;
using CoatScan.Imaging.Jpeg;

namespace CoatScan.Imaging;

/// <summary>What a scan of a photo's own structure tells before any pixel is decoded.</summary>
internal abstract record PhotoStructure
{
    /// <summary>Width as stored, pixels, at least 1.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height as stored, pixels, at least 1.</summary>
    public required int HeightPx { get; init; }

    /// <summary>Orientation, time and the camera's color space.</summary>
    public required ExifFacts Exif { get; init; }

    /// <summary>How the stored values become linear light.</summary>
    public required PhotoColorSpace ColorSpace { get; init; }

    /// <summary>Length of the still photo itself, bytes; what a phone appends behind it is not looked at.</summary>
    public required int LengthBytes { get; init; }

    /// <summary>How coarsely lightness was quantized; null where nothing was lost or no table says.</summary>
    public QuantizerSteps? Quantizer { get; init; }

    /// <summary>Pixels can be transparent.</summary>
    public virtual bool HasAlpha => false;

    /// <summary>Holds the compressed data to its own rules, so that the decoder cannot fill gaps silently.</summary>
    /// <returns>The means of the blocks, read on the way; null where the photo is not coded in such blocks.</returns>
    /// <exception cref="Findings.CoatScanException">The data is cut or damaged.</exception>
    public abstract BlockMeans? CheckData(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken);
}
