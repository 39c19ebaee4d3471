using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>Tells small limits, so that tests need no large files.</summary>
internal sealed class FakeKnowledge : KnowledgeService.KnowledgeServiceBase
{
    public const int MaxInlineBytes = 1000;

    public override Task<ServerInfo> GetServerInfo(GetServerInfoRequest request, ServerCallContext context) =>
        Task.FromResult(new ServerInfo { MaxInlineBytes = MaxInlineBytes, MaxPanelPhotoCount = 12 });
}
