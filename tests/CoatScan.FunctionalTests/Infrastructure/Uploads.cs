using System.Security.Cryptography;
using CoatScan.V1;
using Google.Protobuf;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>Uploads message by message, so that a test can send what no client of ours would.</summary>
internal static class Uploads
{
    public const int ChunkBytes = 64 * 1024;

    public static string Sha256Of(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    public static UploadPhotoRequest Metadata(byte[] bytes, string displayName = "") => new()
    {
        Metadata = new PhotoMetadata { Sha256 = Sha256Of(bytes), SizeBytes = bytes.Length, DisplayName = displayName },
    };

    public static UploadPhotoRequest Chunk(params ReadOnlySpan<byte> bytes) => new() { Chunk = ByteString.CopyFrom(bytes) };

    /// <summary>The messages of an upload as it should be.</summary>
    public static IEnumerable<UploadPhotoRequest> Of(byte[] bytes, int chunkBytes = ChunkBytes) =>
        bytes.Chunk(chunkBytes).Select(chunk => Chunk(chunk)).Prepend(Metadata(bytes));

    /// <summary>Sends messages and returns the photo.</summary>
    public static async Task<Photo> SendAsync(
        this PhotoService.PhotoServiceClient photos, IEnumerable<UploadPhotoRequest> messages)
    {
        using var call = photos.UploadPhoto(cancellationToken: TestContext.Current.CancellationToken);
        try
        {
            foreach (var message in messages)
            {
                await call.RequestStream.WriteAsync(message, TestContext.Current.CancellationToken);
            }

            await call.RequestStream.CompleteAsync();
        }
        catch (Exception e) when (e is RpcException or InvalidOperationException)
        {
            // The server answered before it had everything; what it answered is what counts.
        }

        return await call;
    }

    /// <summary>Sends messages, expects a refusal and returns its status with details.</summary>
    public static async Task<Google.Rpc.Status> RefusalOfAsync(
        this PhotoService.PhotoServiceClient photos, IEnumerable<UploadPhotoRequest> messages)
    {
        var exception = await Assert.ThrowsAsync<RpcException>(() => photos.SendAsync(messages));
        return exception.GetRpcStatus() ?? throw new Xunit.Sdk.XunitException($"No rich status: {exception.Status}");
    }

    /// <summary>Half-received files of a server.</summary>
    public static int HalfReceived(this RunningServer server) =>
        Directory.GetFiles(Path.Combine(server.Folder, "photos", "incoming")).Length;
}
