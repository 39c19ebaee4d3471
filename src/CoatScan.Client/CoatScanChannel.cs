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

    // An instance that is being restarted is back within seconds.
    private static readonly TimeSpan FirstPauseOfInstance = TimeSpan.FromMilliseconds(300);
    private static readonly TimeSpan LongestPauseOfInstance = TimeSpan.FromSeconds(5);

    private const int MaxRetryBufferPerCallBytes = 64 * 1024 * 1024;
    private const int MaxRetryBufferBytes = 256 * 1024 * 1024;

    /// <summary>A channel to a server.</summary>
    /// <param name="address">Address of the gRPC endpoint, <c>http</c> or <c>https</c>.</param>
    /// <param name="credential">API key or token that goes with every call; null for a service with access off.</param>
    /// <exception cref="ArgumentException">The credential would travel in clear text to another machine.</exception>
    public static GrpcChannel ForAddress(Uri address, string? credential = null)
    {
        ArgumentNullException.ThrowIfNull(address);
        var handler = NewHandler();
        if (credential is null)
        {
            return GrpcChannel.ForAddress(address, Options(handler));
        }

        RequireSafe(address, nameof(address));
        return GrpcChannel.ForAddress(address, Options(new CredentialHandler(credential, handler)));
    }

    /// <summary>A channel to several instances of one service, which share a store: calls go to those that answer, in turn.</summary>
    /// <remarks>An instance that stops lets its calls end; the next go to the others, and a call that it had no time to take is tried there.</remarks>
    /// <param name="addresses">Addresses of their gRPC endpoints, all <c>http</c> or all <c>https</c>.</param>
    /// <param name="credential">API key or token that goes with every call; null for services with access off.</param>
    /// <exception cref="ArgumentException">There is no address, the schemes differ, or the credential would travel in clear text.</exception>
    public static GrpcChannel ForAddresses(IReadOnlyCollection<Uri> addresses, string? credential = null)
    {
        ArgumentNullException.ThrowIfNull(addresses);
        if (addresses.Select(address => address.Scheme).Distinct().Count() != 1)
        {
            throw new ArgumentException("The addresses must be one or more, all http or all https.", nameof(addresses));
        }

        HttpMessageHandler handler = NewHandler();
        if (credential is not null)
        {
            foreach (var address in addresses)
            {
                RequireSafe(address, nameof(addresses));
            }

            handler = new CredentialHandler(credential, handler);
        }

        var options = Options(handler);
        options.Credentials = addresses.First().Scheme == Uri.UriSchemeHttps ? ChannelCredentials.SecureSsl : ChannelCredentials.Insecure;
        options.ServiceProvider = new FixedInstances(addresses);
        options.ServiceConfig!.LoadBalancingConfigs.Add(new RoundRobinConfig());
        options.MaxReconnectBackoff = LongestPauseOfInstance;
        options.InitialReconnectBackoff = FirstPauseOfInstance;
        return GrpcChannel.ForAddress(FixedInstances.Target, options);
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

    private static SocketsHttpHandler NewHandler() => new()
    {
        EnableMultipleHttp2Connections = true,
        KeepAlivePingDelay = TimeSpan.FromSeconds(60),
        KeepAlivePingTimeout = TimeSpan.FromSeconds(30),
    };

    private static void RequireSafe(Uri address, string parameter)
    {
        if (address.Scheme != Uri.UriSchemeHttps && !address.IsLoopback)
        {
            throw new ArgumentException($"A credential goes to {address} over https only: anybody on the way could read it.", parameter);
        }
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
