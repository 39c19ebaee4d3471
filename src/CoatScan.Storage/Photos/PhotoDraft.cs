using System.Security.Cryptography;

namespace CoatScan.Storage.Photos;

/// <summary>A photo that is being received: bytes go to a file and into the digest. Disposed without being kept, it is gone.</summary>
public sealed class PhotoDraft : IAsyncDisposable
{
    private readonly FileStream _file;
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private bool _kept;

    internal PhotoDraft(FileStream file) => _file = file;

    /// <summary>Bytes received so far.</summary>
    public long SizeBytes { get; private set; }

    internal string Path => _file.Name;

    /// <summary>Takes the next bytes; ends when the file has them, so that the sender is held back by the disk.</summary>
    public async Task WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken = default)
    {
        await _file.WriteAsync(bytes, cancellationToken);
        _hash.AppendData(bytes.Span);
        SizeBytes += bytes.Length;
    }

    /// <summary>SHA-256 of the bytes received so far, lower-case hex.</summary>
    public string Digest() => Convert.ToHexStringLower(_hash.GetCurrentHash());

    /// <summary>The bytes received so far, for looking at them before they are kept.</summary>
    public byte[] Read()
    {
        var bytes = new byte[SizeBytes];
        _file.Position = 0;
        _file.ReadExactly(bytes);
        return bytes;
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        _hash.Dispose();
        await _file.DisposeAsync();
        if (!_kept)
        {
            File.Delete(_file.Name);
        }
    }

    /// <summary>Syncs the bytes to the disk: before the file gets the name by which it is trusted.</summary>
    internal void Sync() => _file.Flush(flushToDisk: true);

    internal void Keep() => _kept = true;
}
