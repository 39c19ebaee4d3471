using CoatScan.Inspection;
using CoatScan.Service.Hosting;
using OpenTelemetry;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace CoatScan.Service.Telemetry;

/// <summary>Traces, metrics and logs; sent by OTLP only where the standard variable names a collector.</summary>
internal static class TelemetryRegistration
{
    private const string OtlpEndpointVariable = "OTEL_EXPORTER_OTLP_ENDPOINT";

    public static IServiceCollection AddCoatScanTelemetry(
        this IServiceCollection services,
        IConfiguration configuration)
    {
        var telemetry = services.AddOpenTelemetry()
            .ConfigureResource(resource => resource.AddService(
                "coatscan",
                serviceVersion: ServiceRegistration.Version))
            .WithTracing(traces => traces
                .AddSource(InspectionTelemetry.SourceName)
                .AddAspNetCoreInstrumentation())
            .WithMetrics(metrics => metrics
                .AddMeter(InspectionTelemetry.SourceName, ServiceTelemetry.MeterName)
                .AddAspNetCoreInstrumentation()
                .AddRuntimeInstrumentation()
                .AddPrometheusExporter());
        if (!string.IsNullOrEmpty(configuration[OtlpEndpointVariable]))
        {
            services.AddLogging(logging => logging.AddOpenTelemetry());
            telemetry.UseOtlpExporter();
        }

        return services;
    }
}
