namespace CoatScan.Inspection;

/// <summary>One photo as it came in.</summary>
/// <param name="Content">Encoded bytes.</param>
/// <param name="DisplayName">The caller's name of the photo, text only; empty if not given.</param>
/// <param name="Field">Field of the request that holds the photo, for error messages, for example <c>photos[2]</c>.</param>
public sealed record PhotoBytes(ReadOnlyMemory<byte> Content, string DisplayName, string Field)
{
    private Func<ReadOnlyMemory<byte>>? _read;

    /// <summary>Millions of pixels, where that is known without the bytes; null where it is not.</summary>
    public double? Megapixels { get; init; }

    /// <summary>A photo whose bytes are somewhere else until it is its turn.</summary>
    /// <param name="read">Reads them.</param>
    /// <param name="displayName">As <see cref="DisplayName"/>.</param>
    /// <param name="field">As <see cref="Field"/>.</param>
    public static PhotoBytes ReadLater(Func<ReadOnlyMemory<byte>> read, string displayName, string field) =>
        new(ReadOnlyMemory<byte>.Empty, displayName, field) { _read = read };

    /// <summary>The bytes, wherever they are.</summary>
    public ReadOnlyMemory<byte> Read() => _read?.Invoke() ?? Content;
}
