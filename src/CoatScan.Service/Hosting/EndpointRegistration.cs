using CoatScan.Batches;
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
        services.AddSingleton<AnalysisGate>();
        services.AddSingleton<IItemGrader, PanelGrader>();
        services.AddSingleton<BatchRequestCheck>();
        services.AddSingleton<BatchWatch>();
        services.AddSingleton<FindingRecorder>();
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
        application.UseMiddleware<JsonBodyLimit>();
        application.UseGrpcWeb(new GrpcWebOptions { DefaultEnabled = true });
        application.MapGrpcService<FindingEndpoint>();
        application.MapGrpcService<BatchEndpoint>();
        application.MapGrpcService<KnowledgeEndpoint>();
        application.MapGrpcService<SprayDayEndpoint>();
        application.MapGrpcService<PhotoEndpoint>();
        application.MapGrpcHealthChecksService();
        application.MapGrpcReflectionService();
        if (settings.SocketPath is not null)
        {
            return;
        }

        application.MapPost(PhotoUploadRoute.Path, application.Services.GetRequiredService<PhotoUploadRoute>().InvokeAsync);
        application.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false });
        application.MapHealthChecks("/health/ready", new HealthCheckOptions
        {
            Predicate = check => check.Tags.Contains(ReadyTag),
        });
        application.MapPrometheusScrapingEndpoint("/metrics");
        application.MapOpenApiDocument();
        application.MapPage();
        application.Lifetime.ApplicationStarted.Register(() => SayReady(application));
    }

    private static void SayReady(WebApplication application)
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
    }
}
