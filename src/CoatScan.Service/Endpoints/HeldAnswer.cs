namespace CoatScan.Service.Endpoints;

/// <summary>The body of an answer that is kept back until it may go out; from then on everything goes straight on.</summary>
internal sealed class HeldAnswer(Stream inner, Func<bool> mayGo) : Stream
{
    private readonly MemoryStream _kept = new();

    /// <summary>What was kept back.</summary>
    public ReadOnlyMemory<byte> Kept => _kept.GetBuffer().AsMemory(0, (int)_kept.Length);

    /// <inheritdoc />
    public override bool CanRead => false;

    /// <inheritdoc />
    public override bool CanSeek => false;

    /// <inheritdoc />
    public override bool CanWrite => true;

    /// <inheritdoc />
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc />
    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    private Stream Target => mayGo() ? inner : _kept;

    /// <inheritdoc />
    public override void Flush() => Target.Flush();

    /// <inheritdoc />
    public override Task FlushAsync(CancellationToken cancellationToken) => Target.FlushAsync(cancellationToken);

    /// <inheritdoc />
    public override void Write(byte[] buffer, int offset, int count) => Target.Write(buffer, offset, count);

    /// <inheritdoc />
    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        Target.WriteAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    /// <inheritdoc />
    public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default) =>
        Target.WriteAsync(buffer, cancellationToken);

    /// <inheritdoc />
    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    /// <inheritdoc />
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc />
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc />
    protected override void Dispose(bool disposing)
    {
        _kept.Dispose();
        base.Dispose(disposing);
    }
}
