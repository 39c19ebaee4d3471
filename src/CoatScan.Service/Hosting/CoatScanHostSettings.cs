using System.Net;

namespace CoatScan.Service.Hosting;

/// <summary>What the program that hosts the service decides; everything else is configuration.</summary>
public sealed record CoatScanHostSettings
{
    /// <summary>Port of the gRPC endpoint (HTTP/2 without TLS) when nothing else is said.</summary>
    public const int DefaultGrpcPort = 8081;

    /// <summary>Port of the endpoint for JSON, health and metrics (HTTP/1.1) when nothing else is said.</summary>
    public const int DefaultHttpPort = 8080;

    /// <summary>Folder for the database; null leaves it to the configuration.</summary>
    public string? DataFolder { get; init; }

    /// <summary>Address to listen on; null means the loopback address.</summary>
    public string? Host { get; init; }

    /// <summary>Address to listen on.</summary>
    internal IPAddress Address => Host is null ? IPAddress.Loopback : IPAddress.Parse(Host);

    /// <summary>Port of the gRPC endpoint; 0 takes a free one.</summary>
    public int GrpcPort { get; init; } = DefaultGrpcPort;

    /// <summary>Port of the JSON endpoint; 0 takes a free one.</summary>
    public int HttpPort { get; init; } = DefaultHttpPort;

    /// <summary>Path of a Unix domain socket to serve gRPC on instead of both ports; null for ports.</summary>
    public string? SocketPath { get; init; }

    /// <summary>Whether this process works on batches; without it they wait for one that does.</summary>
    public bool GradeBatches { get; init; } = true;

    /// <summary>How to start a process of this program that decodes for it, see <see cref="Options.BatchOptions.DecodeInChildren"/>; empty if it
    /// cannot.</summary>
    public IReadOnlyList<string> DecoderCommand { get; init; } = [];

    /// <summary>Whether to log warnings and errors only.</summary>
    public bool Quiet { get; init; }

    /// <summary>Settings that win over the configuration, for example <c>CoatScan:Analysis:Workers</c>.</summary>
    public IReadOnlyDictionary<string, string?> Overrides { get; init; } = new Dictionary<string, string?>();
}
