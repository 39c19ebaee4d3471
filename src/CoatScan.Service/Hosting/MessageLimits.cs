using CoatScan.Service.Endpoints;
using CoatScan.Service.Options;
using Grpc.AspNetCore.Server;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Hosting;

/// <summary>Lets a message be as large as the photos it may hold; every other service keeps the small default.</summary>
internal sealed class MessageLimits(IOptions<AnalysisOptions> limits)
    : IConfigureOptions<GrpcServiceOptions<FindingEndpoint>>
{
    /// <inheritdoc />
    public void Configure(GrpcServiceOptions<FindingEndpoint> options) =>
        options.MaxReceiveMessageSize = limits.Value.MaxMessageBytes;
}
