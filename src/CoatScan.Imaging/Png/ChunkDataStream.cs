namespace CoatScan.Imaging.Png;

/// <summary>Reads the bodies of several chunks as one stream, without a copy.</summary>
internal sealed class ChunkDataStream(ReadOnlyMemory<byte> bytes, IReadOnlyList<(int Offset, int Length)> parts) : Stream
{
    private int _part;
    private int _inPart;

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => false;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    public override int Read(Span<byte> buffer)
    {
        while (_part < parts.Count && _inPart == parts[_part].Length)
        {
            _part++;
            _inPart = 0;
        }

        if (_part == parts.Count)
        {
            return 0;
        }

        int count = Math.Min(buffer.Length, parts[_part].Length - _inPart);
        bytes.Span.Slice(parts[_part].Offset + _inPart, count).CopyTo(buffer);
        _inPart += count;
        return count;
    }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public override void Flush()
    {
    }

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
