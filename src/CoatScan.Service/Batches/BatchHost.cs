using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Service.Options;
using CoatScan.Service.Telemetry;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Batches;

/// <summary>Works on batches as long as the process runs.</summary>
internal sealed class BatchHost(
    IBatchLedger ledger,
    IServiceProvider provider,
    TenantContext tenants,
    BatchCarrier carrier,
    IOptions<BatchOptions> options,
    TimeProvider clock,
    ILogger<BatchHost> logger) : IHostedService, IAsyncDisposable
{
    private BatchEngine? _engine;

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        // The grader needs model and knowledge. Asked for here, not in the constructor, a damaged one is reported by the start's own
        // check, which runs between the two.
        _engine = new BatchEngine(
            ledger,
            provider.GetRequiredService<IItemGrader>(),
            carrier.HandOut(fault => Log.BrokerAway(logger, fault)),
            tenants,
            new BatchEngineSettings(WorkerName(clock), options.Value.EffectiveWorkers),
            clock,
            fault => Log.BatchTrouble(logger, fault),
            carrier.Announcer());
        _engine.Start();
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public Task StopAsync(CancellationToken cancellationToken) => _engine?.StopAsync() ?? Task.CompletedTask;

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _engine?.DisposeAsync() ?? ValueTask.CompletedTask;

    // A process id comes again; a start of a process does not.
    private static string WorkerName(TimeProvider clock) =>
        $"{Environment.MachineName}-{Environment.ProcessId}-{Guid.CreateVersion7(clock.GetUtcNow()):N}";
}
