using CoatScan.Findings;
using CoatScan.Service.Options;
using Grpc.Core;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Photos;

/// <summary>The messages of UploadPhoto in their order: one description, then chunks.</summary>
internal sealed class ChunkReader(IAsyncStreamReader<Wire.UploadPhotoRequest> requests)
{
    private int _count;

    /// <summary>The description.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: the first message is none.</exception>
    public async ValueTask<Wire.PhotoMetadata> ReadMetadataAsync(CancellationToken cancellationToken) =>
        await requests.MoveNext(cancellationToken).ConfigureAwait(false)
            && requests.Current.PayloadCase == Wire.UploadPhotoRequest.PayloadOneofCase.Metadata
            ? requests.Current.Metadata
            : throw new CoatScanException(
                ErrorReason.FieldInvalid, "metadata must be in the first message of an upload.", "metadata");

    /// <summary>The next chunk; null at the end.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID, VALUE_OUT_OF_RANGE: the message is no chunk, or one too many.</exception>
    public async ValueTask<ReadOnlyMemory<byte>?> ReadChunkAsync(CancellationToken cancellationToken)
    {
        if (!await requests.MoveNext(cancellationToken).ConfigureAwait(false))
        {
            return null;
        }

        var message = requests.Current;
        if (message.PayloadCase != Wire.UploadPhotoRequest.PayloadOneofCase.Chunk)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid, "Every message after the first must carry a chunk.", "chunk");
        }

        if (message.Chunk.Length is 0 or > PhotoOptions.MaxChunkBytes)
        {
            throw OutOfRange(
                $"chunk has {message.Chunk.Length} bytes; it must have 1 to {PhotoOptions.MaxChunkBytes}.",
                message.Chunk.Length,
                PhotoOptions.MaxChunkBytes);
        }

        return ++_count <= PhotoOptions.MaxChunkCount
            ? message.Chunk.Memory
            : throw OutOfRange(
                $"An upload may have {PhotoOptions.MaxChunkCount} chunks; send larger ones.",
                _count,
                PhotoOptions.MaxChunkCount);
    }

    private static CoatScanException OutOfRange(string message, int value, int limit) => new(
        ErrorReason.ValueOutOfRange,
        message,
        "chunk",
        new Dictionary<string, string> { ["value"] = $"{value}", ["limit"] = $"{limit}" });
}
