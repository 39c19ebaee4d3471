using CoatScan.Client;
using CoatScan.FunctionalTests.Infrastructure;
using Grpc.Core;
using Grpc.Net.Client;

namespace CoatScan.FunctionalTests.Server.Photos;

/// <summary>The upload of the client library, against a real service.</summary>
public sealed class PhotoUploaderTests(SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task UploadAsync_again_is_the_same_photo_and_reads_from_the_position()
    {
        using var channel = CoatScanChannel.ForAddress(shared.Server.GrpcAddress);
        var uploader = new PhotoUploader(new(channel));
        byte[] photo = Panels.OtherScene(90_401);
        using var stream = new MemoryStream([1, 2, 3, .. photo]);

        stream.Position = 3;
        var first = await uploader.UploadAsync(stream, "door", Token);
        stream.Position = 3;
        var second = await uploader.UploadAsync(stream, "", Token);

        Assert.Equal(($"photos/{Uploads.Sha256Of(photo)}", "door"), (first.Name, first.DisplayName));
        Assert.Equal((first.Name, first.CreateTime), (second.Name, second.CreateTime));
    }

    [Fact]
    public async Task UploadAsync_large_photo_that_is_known_is_answered_while_it_is_sent()
    {
        using var channel = CoatScanChannel.ForAddress(shared.Server.GrpcAddress);
        var uploader = new PhotoUploader(new(channel));
        byte[] large = [.. Panels.Sound, .. new byte[16 * 1024 * 1024]];
        var first = await uploader.UploadAsync(new MemoryStream(large), "", Token);

        for (var i = 0; i < 5; i++)
        {
            Assert.Equal(first.Name, (await uploader.UploadAsync(new MemoryStream(large), "", Token)).Name);
        }
    }

    [Fact]
    public async Task UploadAsync_refusal_is_typed()
    {
        using var channel = CoatScanChannel.ForAddress(shared.Server.GrpcAddress);
        var uploader = new PhotoUploader(new(channel));

        var error = await Assert.ThrowsAsync<CoatScanCallException>(
            () => uploader.UploadAsync(new MemoryStream(RefusedPhotos.Gif), "", Token));
        var tooLarge = await Assert.ThrowsAsync<CoatScanCallException>(
            () => uploader.UploadAsync(new MemoryStream(new byte[(32 * 1024 * 1024) + 1]), "", Token));

        Assert.Equal(
            (StatusCode.InvalidArgument, "PHOTO_FORMAT_NOT_ALLOWED", "chunk", false),
            (error.StatusCode, error.Reason, error.Field, error.IsTransient));
        Assert.Equal("image/gif", error.Metadata["media_type"]);
        Assert.Equal(
            ("PHOTO_TOO_LARGE", "metadata.size_bytes", "33554432"), (tooLarge.Reason, tooLarge.Field, tooLarge.Metadata["limit"]));
    }

    [Fact]
    public async Task UploadAsync_service_that_comes_back_gets_the_photo()
    {
        var folder = Directory.CreateTempSubdirectory("coatscan-test-").FullName;
        var bytes = Panels.Sound;
        await using (var first = await ServiceProcess.StartAsync(folder))
        {
            var slow = new StreamThatWaits(bytes, bytes.Length / 2);
            var lost = new PhotoUploader(first.Photos).UploadAsync(slow, "", Token);
            await slow.Reached;
            await first.KillAsync();
            slow.GoOn();
            var error = await Assert.ThrowsAsync<CoatScanCallException>(() => lost);
            Assert.Equal((StatusCode.Unavailable, true), (error.StatusCode, error.IsTransient));
        }

        await using var second = await ServiceProcess.StartAsync(folder);
        var photo = await new PhotoUploader(second.Photos).UploadAsync(new MemoryStream(bytes), "", Token);
        Assert.Equal(Uploads.Sha256Of(bytes), photo.Sha256);
        await second.KillAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task UploadAsync_stream_that_cannot_seek_throws()
    {
        using var channel = GrpcChannel.ForAddress(shared.Server.GrpcAddress);
        await using var pipe = new System.IO.Pipes.AnonymousPipeServerStream();

        await Assert.ThrowsAsync<ArgumentException>(() => new PhotoUploader(new(channel)).UploadAsync(pipe, "", Token));
    }

    /// <summary>A photo of which, the second time it is read, only the beginning comes until it is told to go on.</summary>
    private sealed class StreamThatWaits(byte[] bytes, int stopAt) : MemoryStream(bytes)
    {
        private readonly TaskCompletionSource _reached = new();
        private readonly TaskCompletionSource _goOn = new();
        private bool _isSecond;

        public Task Reached => _reached.Task;

        public void GoOn() => _goOn.SetResult();

        public override long Position
        {
            get => base.Position;
            set
            {
                // The digest was taken; now the bytes are sent.
                _isSecond = true;
                base.Position = value;
            }
        }

        public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
        {
            if (_isSecond && Position >= stopAt)
            {
                _reached.TrySetResult();
                await _goOn.Task;
            }

            return await base.ReadAsync(buffer, cancellationToken);
        }
    }
}
