using System.Net;
using System.Net.Sockets;
using Grpc.Core;
using Grpc.Net.Client;
using Grpc.Net.Client.Configuration;

namespace CoatScan.Client;

/// <summary>Opens channels to a CoatScan service with the defaults that photo calls need.</summary>
/// <remarks>
/// A call of more than 1 MB is not retried with the defaults of the gRPC client, whatever the retry policy says, so the
/// retry buffers are raised; UNAVAILABLE is retried, and RESOURCE_EXHAUSTED, since the server's pushback says when
/// (gRPC proposal A6).
/// </remarks>
public static class CoatScanChannel
{
    /// <summary>How long a photo call may take before the client gives up.</summary>
    public static readonly TimeSpan PhotoDeadline = TimeSpan.FromSeconds(30);

    /// <summary>How long a call without a photo may take before the client gives up.</summary>
    public static readonly TimeSpan ControlDeadline = TimeSpan.FromSeconds(5);

    /// <summary>How long one try of an upload may take before the client gives up; longer than the server lets it take.</summary>
    public static readonly TimeSpan UploadDeadline = TimeSpan.FromSeconds(150);

    private const int MaxRetryBufferPerCallBytes = 64 * 1024 * 1024;
    private const int MaxRetryBufferBytes = 256 * 1024 * 1024;

    /// <summary>A channel to a server.</summary>
    /// <param name="address">Address of the gRPC endpoint, <c>http</c> or <c>https</c>.</param>
    /// <param name="credential">API key or token that goes with every call; null for a service with access off.</param>
    /// <exception cref="ArgumentException">The credential would travel in clear text to another machine.</exception>
    public static GrpcChannel ForAddress(Uri address, string? credential = null)
    {
        ArgumentNullException.ThrowIfNull(address);
        var handler = new SocketsHttpHandler
        {
            EnableMultipleHttp2Connections = true,
            KeepAlivePingDelay = TimeSpan.FromSeconds(60),
            KeepAlivePingTimeout = TimeSpan.FromSeconds(30),
        };
        if (credential is null)
        {
            return GrpcChannel.ForAddress(address, Options(handler));
        }

        if (address.Scheme != Uri.UriSchemeHttps && !address.IsLoopback)
        {
            throw new ArgumentException($"A credential goes to {address} over https only: anybody on the way could read it.", nameof(address));
        }

        return GrpcChannel.ForAddress(address, Options(new CredentialHandler(credential, handler)));
    }

    /// <summary>A channel to a service on this machine that listens on a Unix domain socket.</summary>
    /// <param name="socketPath">Path of the socket.</param>
    public static GrpcChannel ForSocket(string socketPath)
    {
        ArgumentException.ThrowIfNullOrEmpty(socketPath);
        var endpoint = new UnixDomainSocketEndPoint(socketPath);
        return GrpcChannel.ForAddress("http://localhost", Options(new SocketsHttpHandler
        {
            // The socket is a file: no proxy of the environment may stand between.
            Proxy = new WebProxy(),
            UseProxy = false,
            ConnectCallback = async (_, token) =>
            {
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                try
                {
                    await socket.ConnectAsync(endpoint, token).ConfigureAwait(false);
                    return new NetworkStream(socket, ownsSocket: true);
                }
                catch
                {
                    socket.Dispose();
                    throw;
                }
            },
        }));
    }

    private static GrpcChannelOptions Options(HttpMessageHandler handler) => new()
    {
        HttpHandler = handler,
        DisposeHttpClient = true,
        MaxReceiveMessageSize = 16 * 1024 * 1024,
        MaxSendMessageSize = null,
        MaxRetryBufferPerCallSize = MaxRetryBufferPerCallBytes,
        MaxRetryBufferSize = MaxRetryBufferBytes,
        ServiceConfig = new ServiceConfig
        {
            MethodConfigs =
            {
                // Not retried by the channel, which would keep every chunk for that: PhotoUploader sends the digest again.
                new MethodConfig { Names = { new MethodName { Service = "coatscan.v1.PhotoService", Method = "UploadPhoto" } } },
                new MethodConfig
                {
                    Names = { MethodName.Default },
                    RetryPolicy = new RetryPolicy
                    {
                        MaxAttempts = 4,
                        InitialBackoff = TimeSpan.FromMilliseconds(300),
                        MaxBackoff = TimeSpan.FromSeconds(5),
                        BackoffMultiplier = 2,
                        RetryableStatusCodes = { StatusCode.Unavailable, StatusCode.ResourceExhausted },
                    },
                },
            },
        },
    };
}
