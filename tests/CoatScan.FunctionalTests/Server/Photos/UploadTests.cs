using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server.Photos;

public sealed class UploadTests(SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private PhotoService.PhotoServiceClient Photos => shared.Server.Photos;

    [Fact]
    public async Task UploadPhoto_is_described_found_and_deleted_in_grpc_and_json()
    {
        var bytes = Panels.OtherScene(90_101);

        var photo = await Photos.SendAsync(Uploads.Of(bytes));

        Assert.Equal($"photos/{Uploads.Sha256Of(bytes)}", photo.Name);
        Assert.Equal((bytes.LongLength, "image/jpeg"), (photo.SizeBytes, photo.MediaType));
        Assert.True(photo.WidthPx > 0 && photo.HeightPx > 0);
        Assert.Equal(TimeSpan.FromDays(365), photo.ExpireTime.ToDateTimeOffset() - photo.CreateTime.ToDateTimeOffset());
        Assert.Equal(photo, await Photos.GetPhotoAsync(new() { Name = photo.Name }));
        var json = await shared.Server.Http.GetStringAsync($"/v1/{photo.Name}", Token);
        Assert.Equal(photo, Photo.Parser.ParseJson(json));

        using var deleted = await shared.Server.Http.DeleteAsync($"/v1/{photo.Name}", Token);
        Assert.Equal(HttpStatusCode.OK, deleted.StatusCode);
        var status = await Errors.OfAsync(() => Photos.GetPhotoAsync(new() { Name = photo.Name }));
        Assert.Equal("PHOTO_NOT_FOUND", status.Info().Reason);
    }

    [Fact]
    public async Task UploadPhoto_known_photo_is_answered_before_its_bytes_come()
    {
        var bytes = Panels.OtherScene(90_102);
        var first = await Photos.SendAsync(Uploads.Of(bytes));

        var again = await Photos.SendAsync([Uploads.Metadata(bytes)]);

        Assert.Equal((first.Name, first.CreateTime), (again.Name, again.CreateTime));
    }

    [Fact]
    public async Task UploadPhoto_small_chunks_and_20_at_once_are_one_photo()
    {
        var bytes = Panels.OtherScene(90_103);

        var photos = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Photos.SendAsync(Uploads.Of(bytes, 10_000))));

        Assert.Equal(photos[0].Name, Assert.Single(photos.Select(photo => photo.Name).Distinct()));
    }

    [Fact]
    public async Task Upload_over_http_takes_raw_bytes_whatever_their_content_type_says()
    {
        var bytes = Panels.OtherScene(90_104);
        using var content = new ByteArrayContent(bytes);
        content.Headers.ContentType = new("text/plain");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/photos:upload?displayName=left%20door") { Content = content };
        request.Headers.Add("X-Content-SHA256", Uploads.Sha256Of(bytes));

        using var response = await shared.Server.Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        var photo = Photo.Parser.ParseJson(await response.Content.ReadAsStringAsync(Token));
        Assert.Equal("left door", photo.DisplayName);
        Assert.Equal(photo, await Photos.GetPhotoAsync(new() { Name = $"photos/{Uploads.Sha256Of(bytes)}" }));
    }

    [Fact]
    public async Task Upload_over_http_of_unknown_length_is_taken_too()
    {
        var bytes = Panels.OtherScene(90_105);
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/photos:upload")
        {
            Content = new StreamContent(new MemoryStream(bytes)),
        };
        request.Headers.TransferEncodingChunked = true;

        using var response = await shared.Server.Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal(
            Uploads.Sha256Of(bytes), Photo.Parser.ParseJson(await response.Content.ReadAsStringAsync(Token)).Sha256);
    }

    [Fact]
    public async Task Analyze_photo_that_was_uploaded_gives_the_finding_of_its_bytes()
    {
        await using var server = await RunningServer.StartAsync(("CoatScan:Photos:NoteSeenBefore", "false"));
        var photo = await server.Photos.SendAsync(Uploads.Of(Panels.FilmLoss).Skip(1).Prepend(Uploads.Metadata(Panels.FilmLoss, "door")));

        var inline = await server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.FilmLoss, "door") });
        var named = await server.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo.Name, Sha256 = photo.Sha256 } });
        var panel = await server.Findings.AnalyzePanelAsync(new()
        {
            Photos = { new PhotoInput { Photo = photo.Name }, Panels.Input(Panels.Sound) },
        });

        (inline.Name, inline.CreateTime) = (named.Name, named.CreateTime);
        Assert.Equal(inline, named);
        Assert.Equal(photo.Sha256, named.Photos[0].Sha256);
        Assert.Equal([photo.Sha256, Uploads.Sha256Of(Panels.Sound)], panel.Photos.Select(one => one.Sha256));
    }

    [Fact]
    public async Task AnalyzePhotos_stream_takes_named_photos_and_answers_an_unknown_one_with_its_error()
    {
        var photo = await Photos.SendAsync(Uploads.Of(Panels.Sound));
        using var call = shared.Server.Findings.AnalyzePhotos(cancellationToken: Token);
        await call.RequestStream.WriteAsync(new() { Key = "known", Photo = new() { Photo = photo.Name } }, Token);
        await call.RequestStream.WriteAsync(
            new() { Key = "unknown", Photo = new() { Photo = $"photos/{new string('0', 64)}" } }, Token);
        await call.RequestStream.CompleteAsync();

        var answers = new Dictionary<string, AnalyzePhotosResponse>();
        while (await call.ResponseStream.MoveNext(Token))
        {
            answers[call.ResponseStream.Current.Key] = call.ResponseStream.Current;
        }

        Assert.Equal(photo.Sha256, answers["known"].Finding.Photos[0].Sha256);
        Assert.Equal("PHOTO_NOT_FOUND", answers["unknown"].Error.Info().Reason);
    }
}
