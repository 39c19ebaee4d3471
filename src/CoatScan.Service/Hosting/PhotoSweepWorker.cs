using CoatScan.Service.Telemetry;
using CoatScan.Storage.Photos;

namespace CoatScan.Service.Hosting;

/// <summary>Removes half-received, expired and deleted photos, at start and then every ten minutes.</summary>
internal sealed class PhotoSweepWorker(PhotoStore store, TimeProvider clock, ILogger<PhotoSweepWorker> logger)
    : BackgroundService
{
    private static readonly TimeSpan Interval = TimeSpan.FromMinutes(10);

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Interval, clock);
        do
        {
            try
            {
                var sweep = await store.SweepAsync(stoppingToken).ConfigureAwait(false);
                if (sweep != PhotoSweep.Nothing)
                {
                    Log.Swept(logger, sweep.Removed, sweep.Expired, sweep.HalfReceived, sweep.Stray);
                }
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Log.SweepFailed(logger, e);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken).ConfigureAwait(false));
    }
}
