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

    /// <inheritdoc/>
    public override void CheckData(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken) =>
        new JpegEntropyCheck(this).Run(bytes.Span, cancellationToken);
}
