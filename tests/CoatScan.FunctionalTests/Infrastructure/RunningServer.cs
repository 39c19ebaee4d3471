using CoatScan.Service.Hosting;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>A real server: Kestrel on free loopback ports, its own data folder, a gRPC channel and an HTTP client.</summary>
public sealed class RunningServer : IAsyncDisposable
{
    /// <summary>Environment variable by which a test knows the child processes of its own server.</summary>
    public const string ChildMark = "COATSCAN_TEST_SERVER";

    private RunningServer(WebApplication application, string folder)
    {
        Application = application;
        Folder = folder;
        var addresses = application.Services.GetRequiredService<IServer>().Features
            .Get<IServerAddressesFeature>()!.Addresses.ToList();
        GrpcAddress = new Uri(addresses[0]);
        Channel = GrpcChannel.ForAddress(GrpcAddress, new GrpcChannelOptions { MaxSendMessageSize = null });
        Http = new HttpClient { BaseAddress = new Uri(addresses[1]), Timeout = TimeSpan.FromSeconds(60) };
    }

    public WebApplication Application { get; }

    public string Folder { get; }

    public Uri GrpcAddress { get; }

    /// <summary>A channel without retries: a test wants to see the first answer.</summary>
    public GrpcChannel Channel { get; }

    public HttpClient Http { get; }

    public V1.FindingService.FindingServiceClient Findings => new(Channel);

    public V1.BatchService.BatchServiceClient Batches => new(Channel);

    public V1.KnowledgeService.KnowledgeServiceClient Knowledge => new(Channel);

    public V1.PhotoService.PhotoServiceClient Photos => new(Channel);

    public V1.SprayDayService.SprayDayServiceClient SprayDay => new(Channel);

    /// <summary>Everything that the server answers to.</summary>
    public IReadOnlyList<Endpoint> Endpoints =>
        [.. ((IEndpointRouteBuilder)Application).DataSources.SelectMany(source => source.Endpoints)];

    public string DatabasePath => Path.Combine(Folder, "coatscan.db");

    public static async Task<RunningServer> StartAsync(params (string Key, string Value)[] settings)
    {
        var folder = Directory.CreateTempSubdirectory("coatscan-test-").FullName;
        var application = CoatScanHost.Build(new CoatScanHostSettings
        {
            DataFolder = folder,
            GrpcPort = 0,
            HttpPort = 0,
            Quiet = true,
            DecoderCommand =
                ["env", $"{ChildMark}={folder}", "dotnet", Path.Combine(AppContext.BaseDirectory, "coatscan.dll"), "decode-worker"],
            Overrides = Overrides(settings),
        });
        await application.StartAsync(TestContext.Current.CancellationToken);
        return new RunningServer(application, folder);
    }

    // Tests run side by side and share a server: none is to be refused because of another, unless it asks for that.
    private static Dictionary<string, string?> Overrides((string Key, string Value)[] settings)
    {
        var overrides = new Dictionary<string, string?> { ["CoatScan:Analysis:QueueLength"] = "64" };
        foreach (var (key, value) in settings)
        {
            overrides[key] = value;
        }

        return overrides;
    }

    public async ValueTask DisposeAsync()
    {
        Http.Dispose();
        Channel.Dispose();
        await Application.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }
}
