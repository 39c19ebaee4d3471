using System.Diagnostics;
using System.Diagnostics.Metrics;
using CoatScan.Inspection;
using CoatScan.Service.Hosting;
using Microsoft.Extensions.Hosting;

namespace CoatScan.StressTests;

/// <summary>The service as it is, or with a leak beside it: eight megabytes for each photo it looks at after a while, which nobody gives back.</summary>
internal static class LeakyHost
{
    private const int LeakBytes = 8 * 1024 * 1024;

    private static readonly List<byte[]> Leaked = [];

    /// <summary>Serves until it is stopped.</summary>
    public static async Task RunAsync(TrialOptions options)
    {
        using var photos = new MeterListener();
        if (options.Has("leak-after"))
        {
            var (clock, after) = (Stopwatch.StartNew(), TimeSpan.FromSeconds(options.Number("leak-after", 1)));
            photos.InstrumentPublished = (instrument, listener) =>
            {
                if (instrument.Meter.Name == InspectionTelemetry.SourceName && instrument.Name == "coatscan.photos")
                {
                    listener.EnableMeasurementEvents(instrument);
                }
            };
            photos.SetMeasurementEventCallback<long>((_, count, _, _) => Leak(clock.Elapsed < after ? 0 : count));
            photos.Start();
        }

        await using var application = CoatScanHost.Build(new CoatScanHostSettings
        {
            DataFolder = options.Text("data"),
            GrpcPort = options.Whole("grpc-port", 0),
            HttpPort = options.Whole("http-port", 0),
            Quiet = true,
        });
        await application.StartAsync();
        await application.WaitForShutdownAsync();
    }

    private static void Leak(long count)
    {
        lock (Leaked)
        {
            for (var i = 0; i < count; i++)
            {
                var bytes = new byte[LeakBytes];

                // Memory that was never written to is no memory yet.
                Array.Fill(bytes, (byte)1);
                Leaked.Add(bytes);
            }
        }
    }
}
