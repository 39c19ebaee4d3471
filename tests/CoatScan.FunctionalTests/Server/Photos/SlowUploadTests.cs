using System.Net;
using System.Net.Sockets;
using System.Text;
using CoatScan.FunctionalTests.Infrastructure;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Server.Photos;

/// <summary>Senders that pause or creep are dropped, and the service stays ready.</summary>
public sealed class SlowUploadTests
{
    private static readonly byte[] Photo = Panels.Sound;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public async Task UploadPhoto_that_pauses_after_some_messages_is_dropped(int messages)
    {
        await using var server = await StartAsync();
        using var call = server.Photos.UploadPhoto(cancellationToken: Token);
        foreach (var message in Uploads.Of(Photo).Take(messages))
        {
            await call.RequestStream.WriteAsync(message, Token);
        }

        var error = await Assert.ThrowsAsync<RpcException>(async () => await call);

        AssertTooSlow(error);
        Assert.Equal(0, server.HalfReceived());
    }

    [Fact]
    public async Task UploadPhoto_of_a_byte_at_a_time_is_dropped_although_it_never_pauses()
    {
        await using var server = await StartAsync();
        using var call = server.Photos.UploadPhoto(cancellationToken: Token);
        await call.RequestStream.WriteAsync(Uploads.Metadata(Photo), Token);
        var answer = call.ResponseAsync;
        for (var i = 0; !answer.IsCompleted; i++)
        {
            try
            {
                await call.RequestStream.WriteAsync(Uploads.Chunk(Photo[i]), Token);
            }
            catch (Exception e) when (e is RpcException or InvalidOperationException)
            {
                break;
            }

            await Task.Delay(50, Token);
        }

        AssertTooSlow(await Assert.ThrowsAsync<RpcException>(() => answer));
        Assert.Equal(0, server.HalfReceived());
    }

    [Fact]
    public async Task Upload_over_http_that_pauses_is_answered_with_408()
    {
        await using var server = await StartAsync();
        using var socket = new TcpClient();
        await socket.ConnectAsync(server.Http.BaseAddress!.Host, server.Http.BaseAddress.Port, Token);
        var stream = socket.GetStream();
        await stream.WriteAsync("POST /v1/photos:upload HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000\r\n\r\nabc"u8.ToArray(), Token);

        using var reader = new StreamReader(stream, Encoding.ASCII);
        Assert.StartsWith("HTTP/1.1 408", await reader.ReadLineAsync(Token), StringComparison.Ordinal);
        Assert.Contains("UPLOAD_TOO_SLOW", await reader.ReadToEndAsync(Token), StringComparison.Ordinal);
        Assert.Equal(0, server.HalfReceived());
    }

    [Fact]
    public async Task Idle_streams_are_all_dropped_and_the_service_stays_ready()
    {
        await using var server = await StartAsync(("CoatScan:Photos:MaxUploads", "10000"));
        var idle = Enumerable.Range(0, 1000).Select(async _ =>
        {
            using var call = server.Photos.UploadPhoto(cancellationToken: Token);
            return await Assert.ThrowsAsync<RpcException>(async () => await call);
        }).ToList();

        using var ready = await server.Http.GetAsync("/health/ready", Token);
        using var content = new ByteArrayContent(Photo);
        using var upload = await server.Http.PostAsync("/v1/photos:upload", content, Token);

        Assert.Equal(HttpStatusCode.OK, ready.StatusCode);
        Assert.Equal(HttpStatusCode.OK, upload.StatusCode);
        Assert.All(await Task.WhenAll(idle), AssertTooSlow);
    }

    [Fact]
    public async Task One_upload_more_than_allowed_at_a_time_is_refused_with_pushback()
    {
        await using var server = await RunningServer.StartAsync(("CoatScan:Photos:MaxUploads", "1"));
        using var first = server.Photos.UploadPhoto(cancellationToken: Token);
        await first.RequestStream.WriteAsync(Uploads.Metadata(Photo), Token);
        await first.RequestStream.WriteAsync(Uploads.Chunk(Photo.AsSpan(0, 1000)), Token);
        while (server.HalfReceived() == 0)
        {
            await Task.Delay(20, Token);
        }

        var error = await Assert.ThrowsAsync<RpcException>(() => server.Photos.SendAsync(Uploads.Of(Panels.FilmLoss)));

        Assert.Equal(StatusCode.ResourceExhausted, error.StatusCode);
        Assert.Equal("SERVER_BUSY", error.GetRpcStatus()!.Info().Reason);
        Assert.NotNull(error.Trailers.GetValue("grpc-retry-pushback-ms"));
    }

    [Fact]
    public async Task Upload_whose_sender_goes_away_leaves_nothing()
    {
        await using var server = await RunningServer.StartAsync();
        using (var call = server.Photos.UploadPhoto(cancellationToken: Token))
        {
            await call.RequestStream.WriteAsync(Uploads.Metadata(Photo), Token);
            await call.RequestStream.WriteAsync(Uploads.Chunk(Photo.AsSpan(0, 1000)), Token);
            while (server.HalfReceived() == 0)
            {
                await Task.Delay(20, Token);
            }
        }

        while (server.HalfReceived() > 0)
        {
            await Task.Delay(20, Token);
        }

        var status = await Errors.OfAsync(
            () => server.Photos.GetPhotoAsync(new() { Name = $"photos/{Uploads.Sha256Of(Photo)}" }));
        Assert.Equal("PHOTO_NOT_FOUND", status.Info().Reason);
    }

    private static Task<RunningServer> StartAsync(params (string Key, string Value)[] more) =>
        RunningServer.StartAsync([("CoatScan:Photos:IdleTimeoutMs", "1000"), .. more]);

    private static void AssertTooSlow(RpcException error)
    {
        Assert.Equal(StatusCode.DeadlineExceeded, error.StatusCode);
        Assert.Equal("UPLOAD_TOO_SLOW", error.GetRpcStatus()!.Info().Reason);
    }
}
