using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using CoatScan.Storage;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>FindingService of the contract: map in, one call into the domain, map out.</summary>
internal sealed class FindingEndpoint(
    PanelInspector inspector,
    FindingStore store,
    FindingRecorder recorder,
    AnalysisGate gate,
    PhotoStream photoStream,
    FindingVerifier verifier,
    RequestPhotos photos)
    : Wire.FindingService.FindingServiceBase
{
    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override Task<Wire.Finding> AnalyzePhoto(Wire.AnalyzePhotoRequest request, ServerCallContext context)
    {
        var facts = RequestMapping.ToFacts(request.Facts);
        var zones = RequestMapping.ToZones(request.CompareZones, photoCount: 1);
        return recorder.AnswerAsync(
            RequestIdentity.Of(request.RequestId, request),
            request.ValidateOnly,
            new FindingInputs(facts, zones),
            async token =>
            {
                var photo = await photos.OpenAsync(request.Photo, "photo", token).ConfigureAwait(false);
                return await gate
                    .RunAsync(() => inspector.InspectPhotos([photo], facts, zones, token), PhotoDemand.Of([photo], context.Deadline), token)
                    .ConfigureAwait(false);
            },
            context.CancellationToken);
    }

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override Task<Wire.Finding> AnalyzePanel(Wire.AnalyzePanelRequest request, ServerCallContext context)
    {
        var facts = RequestMapping.ToFacts(request.Facts);
        var zones = RequestMapping.ToZones(request.CompareZones, request.Photos.Count);
        return recorder.AnswerAsync(
            RequestIdentity.Of(request.RequestId, request),
            request.ValidateOnly,
            new FindingInputs(facts, zones),
            async token =>
            {
                var opened = await photos.OpenAsync(request.Photos, token).ConfigureAwait(false);
                return await gate
                    .RunAsync(() => inspector.InspectPhotos(opened, facts, zones, token), PhotoDemand.Of(opened, context.Deadline), token)
                    .ConfigureAwait(false);
            },
            context.CancellationToken);
    }

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override Task AnalyzePhotos(
        IAsyncStreamReader<Wire.AnalyzePhotosRequest> requestStream,
        IServerStreamWriter<Wire.AnalyzePhotosResponse> responseStream,
        ServerCallContext context) =>
        photoStream.RunAsync(requestStream, responseStream, context.Deadline, context.CancellationToken);

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override Task<Wire.Finding> RankCauses(Wire.RankCausesRequest request, ServerCallContext context)
    {
        var facts = RequestMapping.ToFacts(request.Facts);
        return recorder.AnswerAsync(
            RequestIdentity.Of(request.RequestId, request),
            request.ValidateOnly,
            new FindingInputs(facts, Zones: null),
            _ => Task.FromResult(inspector.RankCauses(facts)),
            context.CancellationToken);
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override async Task<Wire.Finding> GetFinding(Wire.GetFindingRequest request, ServerCallContext context)
    {
        var name = ResourceNames.CheckFinding(request.Name);
        return FindingMapping.ToWire(await store.GetAsync(name, context.CancellationToken).ConfigureAwait(false));
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
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
    [Access(AccessScope.Admin)]
    public override async Task<Empty> DeleteFinding(Wire.DeleteFindingRequest request, ServerCallContext context)
    {
        var name = ResourceNames.CheckFinding(request.Name);
        await store.DeleteAsync(name, context.CancellationToken).ConfigureAwait(false);
        return new Empty();
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override Task<Wire.VerifyFindingResponse> VerifyFinding(
        Wire.VerifyFindingRequest request, ServerCallContext context) =>
        verifier.VerifyAsync(ResourceNames.CheckFinding(request.Name), context.Deadline, context.CancellationToken);
}
