using System.Net;
using CoatScan.Service.Batches;
using CoatScan.Service.Options;
using CoatScan.Service.Telemetry;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace CoatScan.Service.Hosting;

/// <summary>Puts the service together.</summary>
public static class CoatScanHost
{
    /// <summary>Builds the service; nothing is loaded and no port is open before it is started.</summary>
    /// <exception cref="StartupException">The configuration holds a key that nobody reads.</exception>
    public static WebApplication Build(CoatScanHostSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(CoatScanHost).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        Configure(builder, settings);
        builder.Services.AddCoatScan(builder.Configuration);
        builder.Services.AddCoatScanTelemetry(builder.Configuration);
        builder.Services.AddCoatScanEndpoints(settings);
        if (settings.GradeBatches)
        {
            builder.Services.AddHostedService<BatchHost>();
        }

        var application = builder.Build();
        application.MapCoatScan(settings);
        return application;
    }

    private static void Configure(WebApplicationBuilder builder, CoatScanHostSettings settings)
    {
        var overrides = new Dictionary<string, string?>(settings.Overrides);
        if (settings.DataFolder is { } folder)
        {
            overrides[$"{StorageSettings.SectionName}:{nameof(StorageSettings.Path)}"] = folder;
        }

        builder.Configuration.AddInMemoryCollection(overrides);
        if (UnknownKeys.Find(builder.Configuration) is { Count: > 0 } unknown)
        {
            throw new StartupException($"Unknown setting {string.Join(", ", unknown)}.");
        }

        // One line a request is the metrics' business, not the log's.
        builder.Logging.AddFilter("Microsoft", LogLevel.Warning);
        if (settings.Quiet)
        {
            builder.Logging.SetMinimumLevel(LogLevel.Warning);
            // Nothing but results belongs on standard output.
            builder.Logging.ClearProviders();
        }

        // Calls in progress finish; after that the process goes, whatever is left.
        builder.Services.Configure<HostOptions>(options => options.ShutdownTimeout = TimeSpan.FromSeconds(30));
        builder.WebHost.ConfigureKestrel(kestrel => Listen(kestrel, settings));
    }

    private static void Listen(KestrelServerOptions kestrel, CoatScanHostSettings settings)
    {
        kestrel.AddServerHeader = false;
        if (settings.SocketPath is { } socket)
        {
            kestrel.ListenUnixSocket(socket, listen => listen.Protocols = HttpProtocols.Http2);
            return;
        }

        // Without TLS one port cannot serve both protocols: nothing negotiates which is spoken.
        var address = settings.Host is null ? IPAddress.Loopback : IPAddress.Parse(settings.Host);
        kestrel.Listen(address, settings.GrpcPort, listen => listen.Protocols = HttpProtocols.Http2);
        kestrel.Listen(address, settings.HttpPort, listen => listen.Protocols = HttpProtocols.Http1);
    }
}
