namespace CoatScan.Imaging.Jpeg;

/// <summary>Frame, scans and tables of a JPEG, in the order of the file.</summary>
internal sealed record JpegStructure : PhotoStructure
{
    /// <summary>The spectral data is spread over several passes (SOF2).</summary>
    public required bool IsProgressive { get; init; }

    /// <summary>One or three components.</summary>
    public required JpegComponent[] Components { get; init; }

    /// <summary>Huffman tables, restart intervals and scans.</summary>
    public required IReadOnlyList<JpegSegment> Segments { get; init; }

    /// <summary>Quantization tables by number; null for one that the file does not bring.</summary>
    public required IReadOnlyList<QuantizerSteps?> Quantizers { get; init; }

    /// <summary>Three components: brightness and two color differences, as JFIF has them.</summary>
    public required bool IsYCbCr { get; init; }

    /// <inheritdoc/>
    public override BlockMeans? CheckData(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken) =>
        new JpegEntropyCheck(this).Run(bytes.Span, cancellationToken);
}
