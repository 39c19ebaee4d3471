using System.Net;
using System.Security.Cryptography;
using CoatScan.Service.Access;
using CoatScan.Service.Batches;
using CoatScan.Service.Endpoints;
using CoatScan.Service.Page;
using CoatScan.Service.Photos;
using CoatScan.Service.Telemetry;
using CoatScan.Findings;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Hosting;

/// <summary>gRPC, JSON, health, reflection, metrics and the OpenAPI document.</summary>
internal static class EndpointRegistration
{
    private const string ReadyTag = "ready";

    public static IServiceCollection AddCoatScanEndpoints(this IServiceCollection services, CoatScanHostSettings settings)
    {
        services.AddSingleton<BatchLane>();
        services.AddSingleton(new WaitEstimate(new Random(RandomNumberGenerator.GetInt32(int.MaxValue))));
        services.AddSingleton<AnalysisGate>();
        services.AddItemGrader(settings);
        services.AddSingleton<BatchRequestCheck>();
        services.AddSingleton<BatchWatch>();
        services.AddSingleton<FindingRecorder>();
        services.AddSingleton<FindingVerifier>();
        services.AddSingleton<SeenBefore>();
        services.AddSingleton<RequestPhotos>();
        services.AddSingleton<PhotoReceiver>();
        services.AddSingleton<PhotoUploadRoute>();
        services.AddSingleton<ErrorInterceptor>();
        services.AddSingleton<PhotoStream>();
        services.AddPage();
        services.AddGrpc(grpc =>
            {
                grpc.Interceptors.Add<ErrorInterceptor>();
                grpc.EnableDetailedErrors = false;
            })
            // The details of an error reach a JSON caller only if the transcoder knows their types.
            .AddJsonTranscoding(json => json.TypeRegistry = TypeRegistry.FromFiles(ErrorDetailsReflection.Descriptor));
        services.AddSingleton<IConfigureOptions<global::Grpc.AspNetCore.Server.GrpcServiceOptions<FindingEndpoint>>, MessageLimits>();
        services.AddSingleton<IConfigureOptions<global::Grpc.AspNetCore.Server.GrpcServiceOptions<PhotoEndpoint>>, ChunkLimits>();
        services.AddGrpcReflection();
        services.AddGrpcHealthChecks().AddCheck<ReadinessCheck>("service", tags: [ReadyTag]);
        if (settings.SocketPath is null)
        {
            services.AddOpenApiDocument();
        }

        return services;
    }

    public static void MapCoatScan(this WebApplication application, CoatScanHostSettings settings)
    {
        if (settings.SocketPath is null)
        {
            application.UseMiddleware<NothingHere>();
        }

        application.UseMiddleware<JsonBodyLimit>();
        application.UseGrpcWeb(new GrpcWebOptions { DefaultEnabled = true });
        application.UseCoatScanAccess();
        application.UseMiddleware<UnreadableRequest>();
        application.MapGrpcService<FindingEndpoint>();
        application.MapGrpcService<BatchEndpoint>();
        application.MapGrpcService<KnowledgeEndpoint>();
        application.MapGrpcService<SprayDayEndpoint>();
        application.MapGrpcService<PhotoEndpoint>();
        application.MapGrpcHealthChecksService().AllowAnonymous();
        application.MapGrpcReflectionService().RequireAccess(AccessScope.Read);
        if (settings.SocketPath is not null)
        {
            return;
        }

        application.MapPost(PhotoUploadRoute.Path, application.Services.GetRequiredService<PhotoUploadRoute>().InvokeAsync)
            .RequireAccess(AccessScope.Write);
        application.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false }).AllowAnonymous();
        application.MapHealthChecks("/health/ready", new HealthCheckOptions
        {
            Predicate = check => check.Tags.Contains(ReadyTag),
        }).AllowAnonymous();

        // They count the calls of all tenants together.
        application.MapPrometheusScrapingEndpoint("/metrics").RequireOperator();
        application.MapOpenApiDocument().RequireAccess(AccessScope.Read);
        application.MapPage();
        application.Lifetime.ApplicationStarted.Register(() => SayReady(application, settings));
    }

    private static void SayReady(WebApplication application, CoatScanHostSettings settings)
    {
        var addresses = application.Services.GetRequiredService<IServer>().Features
            .GetRequiredFeature<IServerAddressesFeature>().Addresses.ToList();
        var provenance = application.Services.GetRequiredService<Provenance>();
        Log.Ready(
            application.Services.GetRequiredService<ILoggerFactory>().CreateLogger("CoatScan"),
            addresses[0],
            addresses[1],
            provenance.ModelVersion,
            provenance.KnowledgeVersion);
        SayAccess(application.Services, settings);
    }

    private static void SayAccess(IServiceProvider services, CoatScanHostSettings settings)
    {
        var logger = services.GetRequiredService<ILoggerFactory>().CreateLogger("CoatScan");
        var access = services.GetRequiredService<IOptions<AccessOptions>>().Value;
        var isLocal = IPAddress.IsLoopback(settings.Address);
        if (!access.IsOn)
        {
            if (isLocal)
            {
                Log.AccessOff(logger);
            }
            else
            {
                Log.AccessOffOnNetwork(logger, settings.Address);
            }

            return;
        }

        Log.AccessOn(logger, string.Join(", ", Ways(access)));
        if (!isLocal && !services.GetRequiredService<IOptions<TlsOptions>>().Value.IsOn)
        {
            Log.CredentialsInClear(logger);
        }
    }

    private static IEnumerable<string> Ways(AccessOptions access)
    {
        if (access.ApiKeys)
        {
            yield return "API keys";
        }

        if (access.JwtAuthority.Length > 0)
        {
            yield return $"tokens of {access.JwtAuthority}";
        }

        if (access.ClientCertificates.Count > 0)
        {
            yield return "client certificates";
        }
    }
}
