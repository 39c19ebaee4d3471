using System.Security.Cryptography;
using CoatScan.V1;
using Google.Protobuf;
using Grpc.Core;

namespace CoatScan.Client;

/// <summary>Uploads photos in chunks, and again after a lost connection.</summary>
/// <remarks>
/// The digest goes first, and a photo that the service has is answered before its bytes are sent: an upload whose answer
/// was lost costs next to nothing to repeat, and equal bytes give the same photo. Safe for concurrent use.
/// </remarks>
public sealed class PhotoUploader
{
    private const int ChunkBytes = 64 * 1024;
    private const int MaxAttempts = 4;

    private static readonly TimeSpan FirstDelay = TimeSpan.FromMilliseconds(300);

    private readonly PhotoService.PhotoServiceClient _photos;
    private readonly TimeProvider _clock;

    /// <summary>An uploader over a channel of <see cref="CoatScanChannel"/>.</summary>
    /// <param name="photos">The service.</param>
    /// <param name="clock">Clock of deadlines and delays; the system's if null.</param>
    public PhotoUploader(PhotoService.PhotoServiceClient photos, TimeProvider? clock = null)
    {
        ArgumentNullException.ThrowIfNull(photos);
        _photos = photos;
        _clock = clock ?? TimeProvider.System;
    }

    /// <summary>Uploads one photo.</summary>
    /// <param name="content">The bytes from the stream's position to its end; it must be able to seek.</param>
    /// <param name="displayName">Name for people, at most 255 characters.</param>
    /// <param name="cancellationToken">Stops the upload.</param>
    /// <returns>The stored photo; its name stands for its bytes in later requests.</returns>
    /// <exception cref="CoatScanCallException">The photo was refused, or the service did not answer often enough.</exception>
    public async Task<Photo> UploadAsync(
        Stream content, string displayName = "", CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(content);
        ArgumentNullException.ThrowIfNull(displayName);
        if (!content.CanSeek)
        {
            throw new ArgumentException("The stream must be able to seek: its digest is sent before its bytes.", nameof(content));
        }

        var start = content.Position;
        var digest = await SHA256.HashDataAsync(content, cancellationToken).ConfigureAwait(false);
        var metadata = new PhotoMetadata
        {
            Sha256 = Convert.ToHexStringLower(digest),
            SizeBytes = content.Position - start,
            DisplayName = displayName,
        };
        for (var attempt = 1; ; attempt++)
        {
            content.Position = start;
            try
            {
                return await SendAsync(metadata, content, cancellationToken).ConfigureAwait(false);
            }
            catch (RpcException failure)
            {
                cancellationToken.ThrowIfCancellationRequested();
                var error = CoatScanCallException.Of(failure);
                if (!error.IsTransient || attempt == MaxAttempts)
                {
                    throw error;
                }

                var delay = error.RetryDelay ?? FirstDelay * (1 << (attempt - 1));
                await Task.Delay(delay, _clock, cancellationToken).ConfigureAwait(false);
            }
        }
    }

    private async Task<Photo> SendAsync(PhotoMetadata metadata, Stream content, CancellationToken cancellationToken)
    {
        var deadline = _clock.GetUtcNow().UtcDateTime + CoatScanChannel.UploadDeadline;
        using var call = _photos.UploadPhoto(deadline: deadline, cancellationToken: cancellationToken);
        try
        {
            await call.RequestStream.WriteAsync(new UploadPhotoRequest { Metadata = metadata }, cancellationToken)
                .ConfigureAwait(false);
            var buffer = new byte[ChunkBytes];
            int count;
            while ((count = await content.ReadAsync(buffer, cancellationToken).ConfigureAwait(false)) > 0)
            {
                // Written out before the call returns, so the buffer can be filled again.
                var chunk = UnsafeByteOperations.UnsafeWrap(buffer.AsMemory(0, count));
                await call.RequestStream.WriteAsync(new UploadPhotoRequest { Chunk = chunk }, cancellationToken)
                    .ConfigureAwait(false);
            }

            await call.RequestStream.CompleteAsync().ConfigureAwait(false);
        }
        catch (Exception e) when (e is RpcException or InvalidOperationException)
        {
            // The service answered before it had everything, with the photo or with an error: the answer tells.
        }

        return await call.ResponseAsync.ConfigureAwait(false);
    }
}
