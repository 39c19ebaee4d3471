using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>A collector that keeps what it is sent: OTLP over gRPC on one port, over HTTP with protobuf on another.</summary>
internal sealed class OtlpReceiver : IAsyncDisposable
{
    // One flag for compression and four bytes of length stand before a gRPC message.
    private const int FrameHeaderBytes = 5;

    private readonly WebApplication _application;
    private readonly ConcurrentQueue<(string Signal, OtlpMessage Message)> _received = new();

    private OtlpReceiver(WebApplication application) => _application = application;

    /// <summary>Address of the gRPC port.</summary>
    public string GrpcAddress => AddressAt(0);

    /// <summary>Address of the HTTP port.</summary>
    public string HttpAddress => AddressAt(1);

    /// <summary>Listens on two free ports of the loopback address.</summary>
    public static async Task<OtlpReceiver> StartAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http2);
            kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http1);
        });
        var receiver = new OtlpReceiver(builder.Build());
        foreach (var (signal, service) in new[] { ("traces", "Trace"), ("metrics", "Metrics"), ("logs", "Logs") })
        {
            var package = service.ToLowerInvariant();
            receiver._application.MapPost(
                $"/opentelemetry.proto.collector.{package}.v1.{service}Service/Export",
                context => receiver.AnswerGrpcAsync(signal, context));
            receiver._application.MapPost($"/v1/{signal}", context => receiver.AnswerHttpAsync(signal, context));
        }

        await receiver._application.StartAsync(TestContext.Current.CancellationToken);
        return receiver;
    }

    /// <summary>The export requests of one signal: <c>traces</c>, <c>metrics</c> or <c>logs</c>.</summary>
    public IEnumerable<OtlpMessage> Of(string signal) =>
        _received.Where(one => one.Signal == signal).Select(one => one.Message);

    public ValueTask DisposeAsync() => _application.DisposeAsync();

    private static async Task<byte[]> BodyAsync(HttpContext context)
    {
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body, context.RequestAborted);
        return body.ToArray();
    }

    private async Task AnswerGrpcAsync(string signal, HttpContext context)
    {
        var body = await BodyAsync(context);
        _received.Enqueue((signal, new OtlpMessage(body.AsMemory(FrameHeaderBytes))));
        context.Response.ContentType = "application/grpc";
        await context.Response.Body.WriteAsync(new byte[FrameHeaderBytes], context.RequestAborted);
        context.Response.AppendTrailer("grpc-status", "0");
    }

    private async Task AnswerHttpAsync(string signal, HttpContext context)
    {
        _received.Enqueue((signal, new OtlpMessage(await BodyAsync(context))));
        context.Response.ContentType = "application/x-protobuf";
    }

    private string AddressAt(int index) => _application.Services.GetRequiredService<IServer>().Features
        .Get<IServerAddressesFeature>()!.Addresses.ElementAt(index);
}
