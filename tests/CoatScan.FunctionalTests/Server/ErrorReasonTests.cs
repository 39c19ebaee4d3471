using System.Net;
using System.Text.Json;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Google.Protobuf;
using Google.Rpc;

namespace CoatScan.FunctionalTests.Server;

/// <summary>Every reason that a request can be refused for, in gRPC and in JSON.</summary>
public sealed class ErrorReasonTests(SharedServer shared)
{
    private const string Uuid = "5b0f6b1a-6f0e-4c8e-9f53-4d5b0f6b1a77";

    /// <summary>Reason, field at fault, and a request that earns it.</summary>
    public static TheoryData<string, string, string> Refusals() => new()
    {
        { "PHOTO_UNREADABLE", "photo.content", nameof(RefusedPhotos.Empty) },
        { "PHOTO_UNREADABLE", "photo.content", nameof(RefusedPhotos.JpegGarbage) },
        { "PHOTO_TRUNCATED", "photo.content", nameof(RefusedPhotos.TruncatedJpeg) },
        { "PHOTO_FORMAT_NOT_ALLOWED", "photo.content", nameof(RefusedPhotos.Text) },
        { "PHOTO_FORMAT_NOT_ALLOWED", "photo.content", nameof(RefusedPhotos.Gif) },
        { "PHOTO_TOO_LARGE", "photo.content", nameof(RefusedPhotos.ThinPngHeader) },
        { "PHOTO_TOO_LARGE", "photo.content", nameof(RefusedPhotos.TooManyBytes) },
        { "PHOTO_TOO_LARGE", "photo.content", nameof(RefusedPhotos.TooManyPixelsPngHeader) },
        { "PHOTO_TOO_LARGE", "photo.content", nameof(RefusedPhotos.TooLongPngHeader) },
        { "PHOTO_TOO_LARGE", "photo.content", nameof(RefusedPhotos.TooSlimPngHeader) },
        { "PHOTO_COLOR_MODEL_NOT_ALLOWED", "photo.content", nameof(RefusedPhotos.CmykJpeg) },
        { "PHOTO_MULTI_FRAME", "photo.content", nameof(RefusedPhotos.AnimatedPng) },
        { "PHOTO_COLOR_PROFILE_NOT_ALLOWED", "photo.content", nameof(RefusedPhotos.JpegWithPrinterProfile) },
    };

    public static TheoryData<string, string, string> RefusedFacts() => new()
    {
        { "FIELD_INVALID", "facts.evidence", """{"panel":"hood"}""" },
        { "EVIDENCE_UNKNOWN", "facts.evidence[1]", """{"evidence":["form.rings","form.ringz"]}""" },
        { "EVIDENCE_CONFLICT", "facts.evidence[1]", """{"evidence":["test.mild_acid.removes","test.mild_acid.no_effect"]}""" },
        { "VALUE_OUT_OF_RANGE", "facts.readings.film_um[0]", """{"readings":{"filmUm":[-1]}}""" },
        { "VALUE_OUT_OF_RANGE", "facts.readings.gloss_60", """{"readings":{"gloss60":201}}""" },
        { "VALUE_OUT_OF_RANGE", "facts.readings.delta_e_00", """{"readings":{"deltaE00":-0.1}}""" },
        { "VALUE_OUT_OF_RANGE", "facts.mm_per_px", """{"mmPerPx":0}""" },
        { "VALUE_OUT_OF_RANGE", "facts.readings.fault_depth_um", """{"readings":{"faultDepthUm":1001}}""" },
        { "VALUE_OUT_OF_RANGE", "facts.readings.film_panels[0].film_um[1]", """{"readings":{"filmPanels":[{"panel":"hood","filmUm":[100,0]}]}}""" },
        { "EVIDENCE_UNKNOWN", "facts.statements[0].evidence", """{"statements":[{"evidence":"form.ringz","saidBy":"owner"}]}""" },
        { "FIELD_INVALID", "facts.statements[0].said_by", """{"statements":[{"evidence":"form.rings"}]}""" },
        { "FIELD_INVALID", "facts.applied_on", """{"appliedOn":"1 May 2026"}""" },
        { "FIELD_INVALID", "facts.panel", $$"""{"panel":"{{new string('p', 65)}}"}""" },
        { "FIELD_INVALID", "facts.external_ref", $$"""{"externalRef":"{{new string('r', 129)}}"}""" },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public async Task AnalyzePhoto_refused_photo_says_why_in_grpc_and_json(string reason, string field, string photo)
    {
        var content = RefusedPhotos.Named(photo);

        var status = await Errors.OfAsync(() => shared.Server.Findings.AnalyzePhotoAsync(
            new AnalyzePhotoRequest { Photo = Panels.Input(content) }));
        var (jsonReason, body) = await PostAsync("/v1/findings:analyze", PhotoJson(content));

        Assert.Equal((int)Code.InvalidArgument, status.Code);
        Assert.Equal(reason, status.Info().Reason);
        Assert.Equal(field, status.Field());
        Assert.Equal((reason, field), (jsonReason, Errors.FieldOf(body)));
        Assert.Equal(status.Message, body.GetProperty("message").GetString());
    }

    [Theory]
    [InlineData(nameof(RefusedPhotos.TooManyBytes), "bytes", "8388608")]
    [InlineData(nameof(RefusedPhotos.TooManyPixelsPngHeader), "pixel count", "50")]
    [InlineData(nameof(RefusedPhotos.TooLongPngHeader), "longer side", "12000")]
    [InlineData(nameof(RefusedPhotos.TooSlimPngHeader), "ratio of the sides", "8")]
    public async Task AnalyzePhoto_photo_too_large_names_the_limit_in_grpc_and_json(string photo, string what, string limit)
    {
        var content = RefusedPhotos.Named(photo);

        var status = await Errors.OfAsync(() => shared.Server.Findings.AnalyzePhotoAsync(
            new AnalyzePhotoRequest { Photo = Panels.Input(content) }));
        var (_, body) = await PostAsync("/v1/findings:analyze", PhotoJson(content));

        var metadata = Errors.Detail(body, "ErrorInfo").GetProperty("metadata");
        Assert.Equal((what, limit), (status.Info().Metadata["what"], status.Info().Metadata["limit"]));
        Assert.Equal((what, limit), (metadata.GetProperty("what").GetString(), metadata.GetProperty("limit").GetString()));
        Assert.NotEmpty(status.Info().Metadata["value"]);
    }

    [Theory]
    [MemberData(nameof(RefusedFacts))]
    public async Task RankCauses_refused_fact_is_named_in_grpc_and_json(string reason, string field, string facts)
    {
        var status = await Errors.OfAsync(() => shared.Server.Findings.RankCausesAsync(
            new RankCausesRequest { Facts = PanelFacts.Parser.ParseJson(facts) }));
        var (jsonReason, body) = await PostAsync("/v1/findings:rank", $$"""{"facts":{{facts}}}""");

        Assert.Equal(reason, status.Info().Reason);
        Assert.Equal(field, status.Field());
        Assert.Equal((reason, field), (jsonReason, Errors.FieldOf(body)));
    }

    [Fact]
    public async Task AnalyzePhoto_wrong_digest_is_refused()
    {
        var photo = Panels.Input(Panels.Sound);
        photo.Sha256 = new string('0', 64);

        var status = await Errors.OfAsync(() => shared.Server.Findings.AnalyzePhotoAsync(new() { Photo = photo }));
        var (jsonReason, _) = await PostAsync(
            "/v1/findings:analyze",
            JsonFormatter.Default.Format(new AnalyzePhotoRequest { Photo = photo }));

        Assert.Equal("DIGEST_MISMATCH", status.Info().Reason);
        Assert.Equal("photo.sha256", status.Field());
        Assert.Equal("DIGEST_MISMATCH", jsonReason);
    }

    [Fact]
    public async Task AnalyzePhoto_display_name_too_long_is_refused_in_grpc_and_json()
    {
        var request = new AnalyzePhotoRequest { Photo = Panels.Input(Panels.Sound, new string('n', 256)) };

        var status = await Errors.OfAsync(() => shared.Server.Findings.AnalyzePhotoAsync(request));
        var (jsonReason, body) = await PostAsync("/v1/findings:analyze", JsonFormatter.Default.Format(request));

        Assert.Equal("FIELD_INVALID", status.Info().Reason);
        Assert.Equal("photo.display_name", status.Field());
        Assert.Equal(("FIELD_INVALID", "photo.display_name"), (jsonReason, Errors.FieldOf(body)));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(13)]
    public async Task AnalyzePanel_photo_count_is_refused_in_grpc_and_json(int count)
    {
        var request = new AnalyzePanelRequest();
        request.Photos.AddRange(Enumerable.Range(0, count).Select(_ => new PhotoInput()));

        var status = await Errors.OfAsync(() => shared.Server.Findings.AnalyzePanelAsync(request));
        var (jsonReason, body) = await PostAsync("/v1/findings:analyzePanel", JsonFormatter.Default.Format(request));

        Assert.Equal(("PHOTO_COUNT_OUT_OF_RANGE", "photos"), (status.Info().Reason, status.Field()));
        Assert.Equal("12", status.Info().Metadata["limit"]);
        Assert.Equal(("PHOTO_COUNT_OUT_OF_RANGE", "photos"), (jsonReason, Errors.FieldOf(body)));
    }

    [Fact]
    public async Task RankCauses_reused_request_id_is_refused_in_grpc_and_json()
    {
        var facts = new PanelFacts { Evidence = { "form.rings" } };
        await shared.Server.Findings.RankCausesAsync(new RankCausesRequest { Facts = facts, RequestId = Uuid });

        var status = await Errors.OfAsync(() => shared.Server.Findings.RankCausesAsync(
            new RankCausesRequest { Facts = new PanelFacts { Evidence = { "form.domes" } }, RequestId = Uuid }));
        var (jsonReason, _) = await PostAsync(
            "/v1/findings:rank",
            $$"""{"facts":{"evidence":["form.nibs"]},"requestId":"{{Uuid}}"}""");

        Assert.Equal("REQUEST_ID_REUSED", status.Info().Reason);
        Assert.Equal("request_id", status.Field());
        Assert.Equal("REQUEST_ID_REUSED", jsonReason);
    }

    [Fact]
    public async Task RankCauses_request_id_that_is_no_uuid_is_refused_in_grpc_and_json()
    {
        var status = await Errors.OfAsync(() => shared.Server.Findings.RankCausesAsync(
            new RankCausesRequest { Facts = new PanelFacts(), RequestId = "claim 7" }));
        var (jsonReason, body) = await PostAsync("/v1/findings:rank", """{"facts":{},"requestId":"claim 7"}""");

        Assert.Equal("FIELD_INVALID", status.Info().Reason);
        Assert.Equal("request_id", status.Field());
        Assert.Equal(("FIELD_INVALID", "request_id"), (jsonReason, Errors.FieldOf(body)));
    }

    [Theory]
    [InlineData("findings/none", "FINDING_NOT_FOUND")]
    [InlineData("conditions/none", "CONDITION_NOT_FOUND")]
    public async Task Get_unknown_resource_is_not_found_in_grpc_and_json(string name, string reason)
    {
        var status = name.StartsWith("findings", StringComparison.Ordinal)
            ? await Errors.OfAsync(() => shared.Server.Findings.GetFindingAsync(new() { Name = name }))
            : await Errors.OfAsync(() => shared.Server.Knowledge.GetConditionAsync(new() { Name = name }));
        var (jsonReason, _) = await Errors.OfJsonAsync(
            shared.Server.Http, HttpMethod.Get, $"/v1/{name}", null, HttpStatusCode.NotFound);

        Assert.Equal((int)Code.NotFound, status.Code);
        Assert.Equal(reason, status.Info().Reason);
        Assert.Equal(name, status.GetDetail<ResourceInfo>()!.ResourceName);
        Assert.Equal(reason, jsonReason);
    }

    [Fact]
    public async Task DeleteFinding_unknown_finding_is_not_found_in_grpc_and_json()
    {
        var status = await Errors.OfAsync(() => shared.Server.Findings.DeleteFindingAsync(new() { Name = "findings/none" }));
        var (jsonReason, _) = await Errors.OfJsonAsync(
            shared.Server.Http, HttpMethod.Delete, "/v1/findings/none", null, HttpStatusCode.NotFound);

        Assert.Equal("FINDING_NOT_FOUND", status.Info().Reason);
        Assert.Equal("FINDING_NOT_FOUND", jsonReason);
    }

    // Over JSON a name of another collection has no route, so there only the id can be malformed.
    [Theory]
    [InlineData("findings/two%20words", "findings/two words")]
    [InlineData("conditions/two%20words", "conditions/two words")]
    public async Task Get_malformed_name_is_refused_in_grpc_and_json(string path, string name)
    {
        var status = name.StartsWith("findings", StringComparison.Ordinal)
            ? await Errors.OfAsync(() => shared.Server.Findings.GetFindingAsync(new() { Name = name }))
            : await Errors.OfAsync(() => shared.Server.Knowledge.GetConditionAsync(new() { Name = name }));
        var (jsonReason, body) = await GetAsync($"/v1/{path}");

        Assert.Equal(("FIELD_INVALID", "name"), (status.Info().Reason, status.Field()));
        Assert.Equal(("FIELD_INVALID", "name"), (jsonReason, Errors.FieldOf(body)));
    }

    [Fact]
    public async Task GetFinding_name_of_another_collection_is_refused()
    {
        var status = await Errors.OfAsync(() => shared.Server.Findings.GetFindingAsync(new() { Name = "photos/1" }));

        Assert.Equal(("FIELD_INVALID", "name"), (status.Info().Reason, status.Field()));
    }

    [Fact]
    public async Task DeleteFinding_malformed_name_is_refused_in_grpc_and_json()
    {
        var status = await Errors.OfAsync(() => shared.Server.Findings.DeleteFindingAsync(new() { Name = "findings/two words" }));
        var (jsonReason, body) = await Errors.OfJsonAsync(
            shared.Server.Http, HttpMethod.Delete, "/v1/findings/two%20words", null, HttpStatusCode.BadRequest);

        Assert.Equal(("FIELD_INVALID", "name"), (status.Info().Reason, status.Field()));
        Assert.Equal(("FIELD_INVALID", "name"), (jsonReason, Errors.FieldOf(body)));
    }

    [Theory]
    [InlineData("findings")]
    [InlineData("conditions")]
    [InlineData("evidence")]
    public async Task List_bad_page_is_refused_in_grpc_and_json(string collection)
    {
        var (sizeReason, _) = await GetAsync($"/v1/{collection}?pageSize=-1");
        var (tokenReason, _) = await GetAsync($"/v1/{collection}?pageToken=x!");
        var size = await ListAsync(collection, -1, "");
        var token = await ListAsync(collection, 0, "x!");

        Assert.Equal(("VALUE_OUT_OF_RANGE", "FIELD_INVALID"), (sizeReason, tokenReason));
        Assert.Equal(("VALUE_OUT_OF_RANGE", "page_size"), (size.Info().Reason, size.Field()));
        Assert.Equal(("FIELD_INVALID", "page_token"), (token.Info().Reason, token.Field()));
    }

    [Fact]
    public async Task ListEvidence_unknown_group_is_refused_in_grpc_and_json()
    {
        var status = await Errors.OfAsync(() => shared.Server.Knowledge.ListEvidenceAsync(new() { Group = "smell" }));
        var (jsonReason, body) = await GetAsync("/v1/evidence?group=smell");

        Assert.Equal(("FIELD_INVALID", "group"), (status.Info().Reason, status.Field()));
        Assert.Equal(("FIELD_INVALID", "group"), (jsonReason, Errors.FieldOf(body)));
    }

    private Task<Google.Rpc.Status> ListAsync(string collection, int pageSize, string pageToken) => collection switch
    {
        "findings" => Errors.OfAsync(() =>
            shared.Server.Findings.ListFindingsAsync(new() { PageSize = pageSize, PageToken = pageToken })),
        "conditions" => Errors.OfAsync(() =>
            shared.Server.Knowledge.ListConditionsAsync(new() { PageSize = pageSize, PageToken = pageToken })),
        _ => Errors.OfAsync(() =>
            shared.Server.Knowledge.ListEvidenceAsync(new() { PageSize = pageSize, PageToken = pageToken })),
    };

    private Task<(string Reason, JsonElement Body)> PostAsync(string path, string json) =>
        Errors.OfJsonAsync(shared.Server.Http, HttpMethod.Post, path, json, HttpStatusCode.BadRequest);

    private Task<(string Reason, JsonElement Body)> GetAsync(string path) =>
        Errors.OfJsonAsync(shared.Server.Http, HttpMethod.Get, path, null, HttpStatusCode.BadRequest);

    private static string PhotoJson(byte[] content) =>
        $$$"""{"photo":{"content":"{{{Convert.ToBase64String(content)}}}"}}""";
}
