using CoatScan.Service.Endpoints;
using CoatScan.Service.Options;
using Grpc.AspNetCore.Server;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Hosting;

/// <summary>Keeps messages of the photo service small: a chunk, and room to say that it is too large.</summary>
internal sealed class ChunkLimits : IConfigureOptions<GrpcServiceOptions<PhotoEndpoint>>
{
    /// <inheritdoc />
    public void Configure(GrpcServiceOptions<PhotoEndpoint> options) =>
        options.MaxReceiveMessageSize = 4 * PhotoOptions.MaxChunkBytes;
}
