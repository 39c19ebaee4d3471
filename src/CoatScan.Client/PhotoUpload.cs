using CoatScan.V1;
using Google.Protobuf;
using Grpc.Core;

namespace CoatScan.Client;

/// <summary>Sends a photo in chunks.</summary>
public static class PhotoUpload
{
    /// <summary>Bytes of a chunk: the most that the service takes.</summary>
    public const int ChunkBytes = 64 * 1024;

    /// <summary>Sends one photo; one that the service has already is answered at once.</summary>
    /// <param name="client">The service.</param>
    /// <param name="metadata">Digest, size and name.</param>
    /// <param name="content">The bytes, read to their end.</param>
    /// <param name="deadline">When to give up, UTC.</param>
    /// <param name="cancellationToken">Stops the upload.</param>
    /// <exception cref="RpcException">The photo is refused, or the service does not answer.</exception>
    public static async Task<Photo> SendAsync(
        PhotoService.PhotoServiceClient client,
        PhotoMetadata metadata,
        Stream content,
        DateTime deadline,
        CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(client);
        ArgumentNullException.ThrowIfNull(content);
        using var call = client.UploadPhoto(deadline: deadline, cancellationToken: cancellationToken);
        try
        {
            await call.RequestStream.WriteAsync(new UploadPhotoRequest { Metadata = metadata }, cancellationToken)
                .ConfigureAwait(false);
            await SendChunksAsync(call, content, cancellationToken).ConfigureAwait(false);
            await call.RequestStream.CompleteAsync().ConfigureAwait(false);
        }
        catch (Exception failure) when (failure is RpcException or InvalidOperationException)
        {
            // The service has answered before all was sent; the answer says what it thinks of it.
        }

        return await call.ResponseAsync.ConfigureAwait(false);
    }

    private static async Task SendChunksAsync(
        AsyncClientStreamingCall<UploadPhotoRequest, Photo> call, Stream content, CancellationToken cancellationToken)
    {
        while (!call.ResponseAsync.IsCompleted)
        {
            // A fresh buffer each time: the message before may still be on its way.
            var chunk = new byte[ChunkBytes];
            var count = await content.ReadAtLeastAsync(chunk, ChunkBytes, throwOnEndOfStream: false, cancellationToken)
                .ConfigureAwait(false);
            if (count == 0)
            {
                return;
            }

            var message = new UploadPhotoRequest { Chunk = UnsafeByteOperations.UnsafeWrap(chunk.AsMemory(0, count)) };
            await call.RequestStream.WriteAsync(message, cancellationToken).ConfigureAwait(false);
        }
    }
}
