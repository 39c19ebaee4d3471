using CoatScan.Service.Options;
using CoatScan.Service.Telemetry;
using CoatScan.Storage;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Hosting;

/// <summary>Removes findings past their retention, at start and then every hour.</summary>
internal sealed class RetentionWorker(
    FindingStore store,
    TimeProvider clock,
    IOptions<StorageSettings> settings,
    ILogger<RetentionWorker> logger)
    : BackgroundService
{
    private static readonly TimeSpan Interval = TimeSpan.FromHours(1);

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Interval, clock);
        do
        {
            try
            {
                var count = await store.PurgeAsync(stoppingToken).ConfigureAwait(false);
                if (count > 0)
                {
                    Log.Purged(logger, count, settings.Value.RetentionDays);
                }
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Log.PurgeFailed(logger, e);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken).ConfigureAwait(false));
    }
}
