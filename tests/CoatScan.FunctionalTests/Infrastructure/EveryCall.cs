using System.Text.RegularExpressions;
using CoatScan.Service.Access;
using Google.Protobuf.Reflection;
using Grpc.AspNetCore.Server;
using Grpc.Core;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>Every rpc and every route of a running server, found by looking, so that a new one cannot be forgotten.</summary>
internal static partial class EveryCall
{
    private static readonly Marshaller<byte[]> Raw = Marshallers.Create(bytes => bytes, bytes => bytes);

    /// <summary>Every endpoint but the ones that answer UNIMPLEMENTED to what is none of ours.</summary>
    public static IReadOnlyList<RouteEndpoint> Of(RunningServer server) =>
    [
        .. server.Endpoints.OfType<RouteEndpoint>().Where(
            endpoint => endpoint.RoutePattern.Parameters.All(parameter => parameter.Name != "unimplementedMethod")),
    ];

    /// <summary>Whether it is open to everybody.</summary>
    public static bool IsOpen(this RouteEndpoint endpoint) => endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null;

    /// <summary>What it needs; null if nobody said.</summary>
    public static AccessAttribute? Rule(this RouteEndpoint endpoint) => endpoint.Metadata.GetMetadata<AccessAttribute>();

    /// <summary>Its rpc, <c>/package.Service/Method</c>; null for a route.</summary>
    public static string? Rpc(this RouteEndpoint endpoint) =>
        endpoint.Metadata.GetMetadata<GrpcMethodMetadata>() is { } grpc && endpoint.RoutePattern.RawText == grpc.Method.FullName
            ? grpc.Method.FullName
            : null;

    /// <summary>Calls an rpc with one message, whatever its kind; null if it ends well.</summary>
    public static async Task<RpcException?> CallAsync(ChannelBase channel, string rpc, byte[] message) =>
        (await AnswerAsync(channel, rpc, message)).Error;

    /// <summary>Calls an rpc with one message, whatever its kind: what came, and how it ended.</summary>
    public static async Task<(IReadOnlyList<byte[]> Messages, RpcException? Error)> AnswerAsync(
        ChannelBase channel, string rpc, byte[] message)
    {
        var parts = rpc.Split('/');
        var method = new Method<byte[], byte[]>(MethodType.ServerStreaming, parts[1], parts[2], Raw, Raw);
        using var call = channel.CreateCallInvoker().AsyncServerStreamingCall(
            method, null, new CallOptions(cancellationToken: TestContext.Current.CancellationToken), message);
        var messages = new List<byte[]>();
        try
        {
            while (await call.ResponseStream.MoveNext(TestContext.Current.CancellationToken))
            {
                messages.Add(call.ResponseStream.Current);
            }

            return (messages, null);
        }
        catch (RpcException e)
        {
            return (messages, e);
        }
    }

    /// <summary>A request to a route, with something in the place of each parameter.</summary>
    public static HttpRequestMessage Request(RouteEndpoint endpoint)
    {
        var method = endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods[0] ?? "GET";
        var path = Parameter().Replace(endpoint.RoutePattern.RawText!, "x");
        var request = new HttpRequestMessage(new HttpMethod(method), path.StartsWith('/') ? path : "/" + path);
        if (method is "POST" or "PUT" or "PATCH")
        {
            request.Content = new StringContent("{}", null, "application/json");
        }

        return request;
    }

    /// <summary>Every service of the contract.</summary>
    public static IReadOnlyList<ServiceDescriptor> Services() =>
    [
        .. typeof(V1.FindingService).Assembly.GetTypes()
            .Select(type => type.GetProperty("Descriptor", typeof(ServiceDescriptor))?.GetValue(null))
            .OfType<ServiceDescriptor>(),
    ];

    [GeneratedRegex(@"\{[^}]*\}")]
    private static partial Regex Parameter();
}
