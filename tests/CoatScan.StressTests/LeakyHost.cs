using System.Diagnostics.Metrics;
using CoatScan.Inspection;
using CoatScan.Service.Hosting;
using Microsoft.Extensions.Hosting;

namespace CoatScan.StressTests;

/// <summary>The service as it is, or with a leak beside it: two megabytes for each photo it looks at, which nobody gives back.</summary>
internal static class LeakyHost
{
    private const int LeakBytes = 2 * 1024 * 1024;

    private static readonly List<byte[]> Leaked = [];

    /// <summary>Serves until it is stopped.</summary>
    public static async Task RunAsync(TrialOptions options)
    {
        using var photos = new MeterListener();
        if (options.Has("leak"))
        {
            photos.InstrumentPublished = (instrument, listener) =>
            {
                if (instrument.Meter.Name == InspectionTelemetry.SourceName && instrument.Name == "coatscan.photos")
                {
                    listener.EnableMeasurementEvents(instrument);
                }
            };
            photos.SetMeasurementEventCallback<long>((_, count, _, _) => Leak(count));
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
