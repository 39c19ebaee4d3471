using CoatScan.Metrics;

namespace CoatScan.Service.Hosting;

/// <summary>
/// Gives memory back to the system when work has come to an end: after a rush of large photos kept planes, collector and C library would hold on to
/// what they took. Whether there is work is seen by what is allocated, so that no lane has to report here.
/// </summary>
internal sealed class IdleMemory(TimeProvider clock) : BackgroundService
{
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(5);

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var watch = new AllocationWatch();
        using var timer = new PeriodicTimer(Interval, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken).ConfigureAwait(false))
        {
            if (watch.WorkHasEnded(GC.GetTotalAllocatedBytes()))
            {
                PanelPlanes.LetGo();
                GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
                NativeHeap.Trim();
            }
        }
    }
}
