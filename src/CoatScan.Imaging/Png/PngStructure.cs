using CoatScan.Imaging.Jpeg;

namespace CoatScan.Imaging.Png;

/// <summary>Header and pixel data of a PNG.</summary>
internal sealed record PngStructure : PhotoStructure
{
    /// <summary>Bits a sample: 1, 2, 4, 8 or 16.</summary>
    public required int BitDepth { get; init; }

    /// <summary>Color type: 0 gray, 2 RGB, 3 palette, 4 gray with alpha, 6 RGB with alpha.</summary>
    public required int ColorType { get; init; }

    /// <summary>Stored in the seven passes of Adam7.</summary>
    public required bool IsInterlaced { get; init; }

    /// <summary>A palette or one color is transparent.</summary>
    public required bool HasTransparency { get; init; }

    /// <summary>Where the parts of the compressed data stand.</summary>
    public required IReadOnlyList<(int Offset, int Length)> DataParts { get; init; }

    /// <inheritdoc/>
    public override bool HasAlpha => HasTransparency || ColorType is 4 or 6;

    /// <summary>Bits of a pixel.</summary>
    public int BitsPerPx => BitDepth * ColorType switch { 2 => 3, 4 => 2, 6 => 4, _ => 1 };

    /// <inheritdoc/>
    public override BlockMeans? CheckData(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        PngDataCheck.Run(this, bytes, cancellationToken);
        return null;
    }
}
