using CoatScan.Inspection;
using CoatScan.Service.Mapping;
using CoatScan.Service.Options;
using CoatScan.Storage;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Microsoft.Extensions.Options;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>FindingService of the contract: map in, one call into the domain, map out.</summary>
internal sealed class FindingEndpoint(
    PanelInspector inspector,
    FindingStore store,
    FindingRecorder recorder,
    AnalysisGate gate,
    PhotoStream photoStream,
    IOptions<AnalysisOptions> limits)
    : Wire.FindingService.FindingServiceBase
{
    /// <inheritdoc />
    public override Task<Wire.Finding> AnalyzePhoto(Wire.AnalyzePhotoRequest request, ServerCallContext context)
    {
        var facts = RequestMapping.ToFacts(request.Facts);
        var photo = RequestMapping.ToPhoto(request.Photo, "photo", limits.Value);
        var zones = RequestMapping.ToZones(request.CompareZones, photoCount: 1);
        return recorder.AnswerAsync(
            RequestIdentity.Of(request.RequestId, request),
            request.ValidateOnly,
            token => gate.RunAsync(() => inspector.InspectPhotos([photo], facts, zones, token), token),
            context.CancellationToken);
    }

    /// <inheritdoc />
    public override Task<Wire.Finding> AnalyzePanel(Wire.AnalyzePanelRequest request, ServerCallContext context)
    {
        var facts = RequestMapping.ToFacts(request.Facts);
        var photos = RequestMapping.ToPhotos(request.Photos, limits.Value);
        var zones = RequestMapping.ToZones(request.CompareZones, photos.Count);
        return recorder.AnswerAsync(
            RequestIdentity.Of(request.RequestId, request),
            request.ValidateOnly,
            token => gate.RunAsync(() => inspector.InspectPhotos(photos, facts, zones, token), token),
            context.CancellationToken);
    }

    /// <inheritdoc />
    public override Task AnalyzePhotos(
        IAsyncStreamReader<Wire.AnalyzePhotosRequest> requestStream,
        IServerStreamWriter<Wire.AnalyzePhotosResponse> responseStream,
        ServerCallContext context) =>
        photoStream.RunAsync(requestStream, responseStream, context.CancellationToken);

    /// <inheritdoc />
    public override Task<Wire.Finding> RankCauses(Wire.RankCausesRequest request, ServerCallContext context)
    {
        var facts = RequestMapping.ToFacts(request.Facts);
        return recorder.AnswerAsync(
            RequestIdentity.Of(request.RequestId, request),
            request.ValidateOnly,
            _ => Task.FromResult(inspector.RankCauses(facts)),
            context.CancellationToken);
    }

    /// <inheritdoc />
    public override async Task<Wire.Finding> GetFinding(Wire.GetFindingRequest request, ServerCallContext context)
    {
        var name = ResourceNames.CheckFinding(request.Name);
        return FindingMapping.ToWire(await store.GetAsync(name, context.CancellationToken).ConfigureAwait(false));
    }

    /// <inheritdoc />
    public override async Task<Wire.ListFindingsResponse> ListFindings(
        Wire.ListFindingsRequest request,
        ServerCallContext context)
    {
        var page = await store.ListAsync(request.PageSize, request.PageToken, context.CancellationToken)
            .ConfigureAwait(false);
        var response = new Wire.ListFindingsResponse { NextPageToken = page.NextPageToken };
        response.Findings.Add(page.Findings.Select(FindingMapping.ToWire));
        return response;
    }

    /// <inheritdoc />
    public override async Task<Empty> DeleteFinding(Wire.DeleteFindingRequest request, ServerCallContext context)
    {
        var name = ResourceNames.CheckFinding(request.Name);
        await store.DeleteAsync(name, context.CancellationToken).ConfigureAwait(false);
        return new Empty();
    }
}
