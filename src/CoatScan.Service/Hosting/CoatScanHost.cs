using CoatScan.Service.Access;
using CoatScan.Service.Batches;
using CoatScan.Service.Options;
using CoatScan.Service.Telemetry;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace CoatScan.Service.Hosting;

/// <summary>Puts the service together.</summary>
public static class CoatScanHost
{
    /// <summary>Builds the service; no port is open before it is started.</summary>
    /// <exception cref="StartupException">The configuration holds a key that nobody reads.</exception>
    public static WebApplication Build(CoatScanHostSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        NativeHeap.KeepLittle();
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(CoatScanHost).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        Configure(builder, settings);
        var access = Access(builder.Configuration, settings);
        Listen(builder, settings, access);
        builder.Services.AddCoatScanAccess(builder.Configuration, access);
        builder.Services.AddCoatScan(builder.Configuration);
        builder.Services.AddCoatScanTelemetry(builder.Configuration);
        builder.Services.AddCoatScanEndpoints(settings);
        builder.Services.AddSingleton<Preloading>();
        if (settings.GradeBatches)
        {
            builder.Services.AddHostedService<BatchHost>();
        }

        var application = builder.Build();
        application.Services.GetRequiredService<Preloading>();
        try
        {
            application.MapCoatScan(settings);
            return application;
        }
        catch
        {
            // Nobody else can: the caller gets no application, and what reads the model has to end before the process does.
            application.DisposeAsync().AsTask().GetAwaiter().GetResult();
            throw;
        }
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
    }

    private static AccessOptions Access(IConfiguration configuration, CoatScanHostSettings settings)
    {
        // Of the private folder of a socket the operating system is the guard.
        if (settings.SocketPath is not null)
        {
            return new AccessOptions();
        }

        var access = StrictOptions.Read<AccessOptions>(configuration, AccessOptions.SectionName);
        StrictOptions.Read<QuotaOptions>(configuration, QuotaOptions.SectionName);
        NetworkRule.Check(settings.Address, access);
        return access;
    }

    private static void Listen(WebApplicationBuilder builder, CoatScanHostSettings settings, AccessOptions access)
    {
        if (settings.SocketPath is { } socket)
        {
            builder.WebHost.ConfigureKestrel(kestrel =>
                kestrel.ListenUnixSocket(socket, listen => listen.Protocols = HttpProtocols.Http2));
            return;
        }

        var certificates = NetworkRule.Certificates(
            StrictOptions.Read<TlsOptions>(builder.Configuration, TlsOptions.SectionName));
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Listen(settings.Address, settings.GrpcPort, listen => Speak(listen, HttpProtocols.Http2));
            kestrel.Listen(settings.Address, settings.HttpPort, listen => Speak(listen, HttpProtocols.Http1));
        });

        void Speak(ListenOptions listen, HttpProtocols protocols)
        {
            // Without TLS one port cannot serve both protocols: nothing negotiates which is spoken.
            listen.Protocols = certificates.Count == 0 ? protocols : HttpProtocols.Http1AndHttp2;
            if (certificates.Count > 0)
            {
                NetworkRule.UseTls(listen, certificates, access);
            }
        }
    }
}
