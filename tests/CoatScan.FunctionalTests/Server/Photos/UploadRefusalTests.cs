using System.Net;
using System.Text.Json;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Google.Protobuf;
using Google.Rpc;

namespace CoatScan.FunctionalTests.Server.Photos;

/// <summary>Every way in which an upload, or a name of a photo, can be refused.</summary>
public sealed class UploadRefusalTests(SharedServer shared)
{
    private const int SmallLimit = 64 * 1024;

    private static readonly byte[] Photo = Panels.Sound;

    // Never uploaded whole by any test: of a photo that it has, the server asks for no byte more, and refuses none.
    private static readonly byte[] Unknown = [.. Photo, 0x4E];

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public static TheoryData<string, string, string> Wrong() => new()
    {
        { "no metadata", "FIELD_INVALID", "metadata" },
        { "nothing", "FIELD_INVALID", "metadata" },
        { "metadata twice", "FIELD_INVALID", "chunk" },
        { "empty chunk", "VALUE_OUT_OF_RANGE", "chunk" },
        { "chunk of one byte too many", "VALUE_OUT_OF_RANGE", "chunk" },
        { "no digest", "FIELD_INVALID", "metadata.sha256" },
        { "digest in capitals", "FIELD_INVALID", "metadata.sha256" },
        { "digest of other bytes", "DIGEST_MISMATCH", "metadata.sha256" },
        { "one byte too few", "SIZE_MISMATCH", "metadata.size_bytes" },
        { "one byte too many", "SIZE_MISMATCH", "metadata.size_bytes" },
        { "size zero", "VALUE_OUT_OF_RANGE", "metadata.size_bytes" },
        { "size above the limit", "PHOTO_TOO_LARGE", "metadata.size_bytes" },
        { "long name", "FIELD_INVALID", "metadata.display_name" },
        { "no photo", "PHOTO_FORMAT_NOT_ALLOWED", "chunk" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public async Task UploadPhoto_that_is_wrong_names_the_field(string what, string reason, string field)
    {
        var status = await shared.Server.Photos.RefusalOfAsync(Messages(what));

        Assert.Equal((int)Code.InvalidArgument, status.Code);
        Assert.Equal((reason, field), (status.Info().Reason, status.Field()));
    }

    [Theory]
    [InlineData(SmallLimit - 1, false)]
    [InlineData(SmallLimit, false)]
    [InlineData(SmallLimit + 1, true)]
    public async Task Upload_of_limit_and_one_more_or_less_in_grpc_and_http(int size, bool tooLarge)
    {
        await using var server = await RunningServer.StartAsync(("CoatScan:Photos:MaxUploadBytes", $"{SmallLimit}"));
        var bytes = new byte[size];
        // No photo either way: what is refused for is whether the size was in order.
        var expected = tooLarge ? "PHOTO_TOO_LARGE" : "PHOTO_FORMAT_NOT_ALLOWED";

        var status = await server.Photos.RefusalOfAsync(Uploads.Of(bytes, 40_000));
        var (known, knownBody) = await PostAsync(server, bytes);
        var (unknown, unknownBody) = await PostAsync(server, bytes, chunked: true);

        Assert.Equal((expected, expected, expected), (status.Info().Reason, known, unknown));
        Assert.Equal(("body", "body"), (Errors.FieldOf(knownBody), Errors.FieldOf(unknownBody)));
        if (tooLarge)
        {
            Assert.Equal($"{SmallLimit}", status.Info().Metadata["limit"]);
        }

        Assert.Equal(SmallLimit, (await server.Knowledge.GetServerInfoAsync(new())).MaxUploadBytes);
        Assert.Equal(0, server.HalfReceived());
    }

    [Theory]
    [InlineData(64 * 1024 - 1)]
    [InlineData(64 * 1024)]
    public async Task UploadPhoto_chunk_up_to_the_limit_is_taken(int chunkBytes)
    {
        byte[] bytes = [.. Photo, .. new byte[3 * 64 * 1024]];

        var photo = await shared.Server.Photos.SendAsync(Uploads.Of(bytes, chunkBytes));

        Assert.Equal(bytes.Length, photo.SizeBytes);
    }

    [Theory]
    [InlineData(8192, "PHOTO_FORMAT_NOT_ALLOWED")]
    [InlineData(8193, "VALUE_OUT_OF_RANGE")]
    public async Task UploadPhoto_chunks_up_to_the_limit_are_taken(int count, string reason)
    {
        var status = await shared.Server.Photos.RefusalOfAsync(Uploads.Of(new byte[count], 1));

        Assert.Equal((reason, "chunk"), (status.Info().Reason, status.Field()));
    }

    [Fact]
    public async Task Upload_over_http_that_is_wrong_names_the_field()
    {
        var (digest, digestBody) = await PostAsync(shared.Server, Photo, sha256: new string('0', 64));
        var (malformed, malformedBody) = await PostAsync(shared.Server, Photo, sha256: "abc");
        var (name, nameBody) = await PostAsync(shared.Server, Photo, query: $"?displayName={new string('n', 256)}");
        var (text, textBody) = await PostAsync(shared.Server, RefusedPhotos.Text);
        var (empty, emptyBody) = await PostAsync(shared.Server, []);

        Assert.Equal(("DIGEST_MISMATCH", "x-content-sha256"), (digest, Errors.FieldOf(digestBody)));
        Assert.Equal(("FIELD_INVALID", "x-content-sha256"), (malformed, Errors.FieldOf(malformedBody)));
        Assert.Equal(("FIELD_INVALID", "display_name"), (name, Errors.FieldOf(nameBody)));
        Assert.Equal(("PHOTO_FORMAT_NOT_ALLOWED", "body"), (text, Errors.FieldOf(textBody)));
        Assert.Equal(("VALUE_OUT_OF_RANGE", "body"), (empty, Errors.FieldOf(emptyBody)));
    }

    [Theory]
    [InlineData("photos/abc", "FIELD_INVALID", HttpStatusCode.BadRequest)]
    [InlineData("photos/0000000000000000000000000000000000000000000000000000000000000000", "PHOTO_NOT_FOUND", HttpStatusCode.NotFound)]
    public async Task Name_of_no_photo_is_refused_in_grpc_and_json(string name, string reason, HttpStatusCode code)
    {
        var photos = shared.Server.Photos;
        var findings = shared.Server.Findings;
        var http = shared.Server.Http;
        foreach (var status in new[]
        {
            await Errors.OfAsync(() => photos.GetPhotoAsync(new() { Name = name })),
            await Errors.OfAsync(() => photos.DeletePhotoAsync(new() { Name = name })),
            await Errors.OfAsync(() => photos.FindSimilarPhotosAsync(new() { Name = name })),
            await Errors.OfAsync(() => findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = name } })),
            await Errors.OfAsync(() => findings.AnalyzePanelAsync(new() { Photos = { new PhotoInput { Photo = name } } })),
        })
        {
            Assert.Equal(reason, status.Info().Reason);
            Assert.True(code == HttpStatusCode.BadRequest || status.GetDetail<ResourceInfo>()!.ResourceType == "coatscan.example/Photo");
        }

        var photo = $$"""{"photo":"{{name}}"}""";
        foreach (var (jsonReason, _) in new[]
        {
            await Errors.OfJsonAsync(http, HttpMethod.Get, $"/v1/{name}", null, code),
            await Errors.OfJsonAsync(http, HttpMethod.Delete, $"/v1/{name}", null, code),
            await Errors.OfJsonAsync(http, HttpMethod.Get, $"/v1/{name}:findSimilar", null, code),
            await Errors.OfJsonAsync(http, HttpMethod.Post, "/v1/findings:analyze", $$"""{"photo":{{photo}}}""", code),
            await Errors.OfJsonAsync(http, HttpMethod.Post, "/v1/findings:analyzePanel", $$"""{"photos":[{{photo}}]}""", code),
        })
        {
            Assert.Equal(reason, jsonReason);
        }
    }

    [Fact]
    public async Task AnalyzePhoto_content_and_name_together_or_another_digest_are_refused_in_grpc_and_json()
    {
        var photo = await shared.Server.Photos.SendAsync(Uploads.Of(Photo));
        var both = new PhotoInput { Photo = photo.Name, Content = ByteString.CopyFrom(Photo) };
        var digest = new PhotoInput { Photo = photo.Name, Sha256 = new string('0', 64) };
        foreach (var (input, reason, field) in new[]
        {
            (both, "FIELD_INVALID", "photo.photo"),
            (digest, "DIGEST_MISMATCH", "photo.sha256"),
        })
        {
            var request = new AnalyzePhotoRequest { Photo = input };
            var status = await Errors.OfAsync(() => shared.Server.Findings.AnalyzePhotoAsync(request));
            var (jsonReason, body) = await Errors.OfJsonAsync(
                shared.Server.Http,
                HttpMethod.Post,
                "/v1/findings:analyze",
                JsonFormatter.Default.Format(request),
                HttpStatusCode.BadRequest);

            Assert.Equal((reason, field), (status.Info().Reason, status.Field()));
            Assert.Equal((reason, field), (jsonReason, Errors.FieldOf(body)));
        }
    }

    private static IEnumerable<UploadPhotoRequest> Messages(string what)
    {
        var metadata = Uploads.Metadata(Unknown);
        var chunks = Uploads.Of(Unknown).Skip(1).ToList();
        switch (what)
        {
            case "no metadata": return chunks;
            case "nothing": return [];
            case "metadata twice": return [metadata, metadata];
            case "empty chunk": return [metadata, Uploads.Chunk()];
            case "chunk of one byte too many": return [metadata, Uploads.Chunk(new byte[Uploads.ChunkBytes + 1])];
            case "no photo": return Uploads.Of(RefusedPhotos.Text);
            case "one byte too few": metadata.Metadata.SizeBytes++; break;
            case "one byte too many": metadata.Metadata.SizeBytes--; break;
            case "size zero": metadata.Metadata.SizeBytes = 0; break;
            case "size above the limit": metadata.Metadata.SizeBytes = 32 * 1024 * 1024 + 1; break;
            case "long name": metadata.Metadata.DisplayName = new string('n', 256); break;
            case "no digest": metadata.Metadata.Sha256 = ""; break;
            case "digest in capitals": metadata.Metadata.Sha256 = metadata.Metadata.Sha256.ToUpperInvariant(); break;
            case "digest of other bytes": metadata.Metadata.Sha256 = new string('0', 64); break;
            default: throw new ArgumentOutOfRangeException(nameof(what), what, null);
        }

        return chunks.Prepend(metadata);
    }

    private static async Task<(string Reason, JsonElement Body)> PostAsync(
        RunningServer server, byte[] bytes, string? sha256 = null, string query = "", bool chunked = false)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/v1/photos:upload{query}")
        {
            Content = new ByteArrayContent(bytes),
        };
        request.Headers.TransferEncodingChunked = chunked;
        if (sha256 is not null)
        {
            request.Headers.Add("X-Content-SHA256", sha256);
        }

        using var response = await server.Http.SendAsync(request, Token);
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        var body = JsonDocument.Parse(await response.Content.ReadAsStringAsync(Token)).RootElement;
        return (Errors.Detail(body, "ErrorInfo").GetProperty("reason").GetString()!, body);
    }
}
