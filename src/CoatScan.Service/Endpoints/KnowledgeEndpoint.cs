using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using CoatScan.Service.Options;
using Grpc.Core;
using Microsoft.Extensions.Options;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>KnowledgeService of the contract.</summary>
internal sealed class KnowledgeEndpoint(
    KnowledgeBase knowledge,
    Provenance provenance,
    ImagingOptions imaging,
    IOptions<AnalysisOptions> limits,
    IOptions<PhotoOptions> photos)
    : Wire.KnowledgeService.KnowledgeServiceBase
{
    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override Task<Wire.ServerInfo> GetServerInfo(Wire.GetServerInfoRequest request, ServerCallContext context)
    {
        var info = new Wire.ServerInfo
        {
            ServiceVersion = provenance.ServiceVersion,
            ModelVersion = provenance.ModelVersion,
            ModelSha256 = provenance.ModelSha256,
            KnowledgeVersion = provenance.KnowledgeVersion,
            MetricSetVersion = provenance.MetricSetVersion,
            MaxInlineBytes = limits.Value.MaxInlineBytes,
            MaxPanelBytes = limits.Value.MaxPanelBytes,
            MaxUploadBytes = photos.Value.MaxUploadBytes,
            MaxPanelPhotoCount = AnalysisOptions.MaxPanelPhotoCount,
            MaxPhotoMegapixels = imaging.MaxMegapixels,
            MaxSidePx = imaging.MaxSidePx,
            MaxAspectRatio = imaging.MaxAspect,
            MediaTypes = { "image/jpeg", "image/png" },
        };
        info.VisualClasses.Add(knowledge.VisualClasses.Keys);
        return Task.FromResult(info);
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override Task<Wire.ListConditionsResponse> ListConditions(
        Wire.ListConditionsRequest request,
        ServerCallContext context)
    {
        var page = CatalogPage.Of(knowledge.Conditions, request.PageSize, request.PageToken, CatalogPage.DefaultSize);
        var response = new Wire.ListConditionsResponse { NextPageToken = page.NextPageToken };
        response.Conditions.Add(page.Items.Select(one => KnowledgeMapping.ToWire(one, knowledge)));
        return Task.FromResult(response);
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override Task<Wire.Condition> GetCondition(Wire.GetConditionRequest request, ServerCallContext context)
    {
        var id = ResourceNames.ConditionId(request.Name);
        var condition = knowledge.Conditions.FirstOrDefault(known => known.Id == id)
            ?? throw new CoatScanException(
                ErrorReason.ConditionNotFound,
                $"There is no condition {request.Name}.",
                metadata: new Dictionary<string, string> { ["name"] = request.Name });
        return Task.FromResult(KnowledgeMapping.ToWire(condition, knowledge));
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override Task<Wire.ListEvidenceResponse> ListEvidence(
        Wire.ListEvidenceRequest request,
        ServerCallContext context)
    {
        var terms = KnowledgeMapping.OfGroup(knowledge, request.Group);
        var page = CatalogPage.Of(terms, request.PageSize, request.PageToken, CatalogPage.MaxSize);
        var response = new Wire.ListEvidenceResponse { NextPageToken = page.NextPageToken };
        response.Evidence.Add(page.Items.Select(KnowledgeMapping.ToWire));
        return Task.FromResult(response);
    }
}
