using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Service.Options;
using CoatScan.Service.Telemetry;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Batches;

/// <summary>Works on batches as long as the process runs.</summary>
internal sealed class BatchHost(
    IBatchLedger ledger,
    IItemGrader grader,
    TenantContext tenants,
    IOptions<BatchOptions> options,
    TimeProvider clock,
    ILogger<BatchHost> logger) : IHostedService, IAsyncDisposable
{
    private readonly BatchEngine _engine = new(
        ledger,
        grader,
        new ChannelHandOut(options.Value.EffectiveWorkers, clock),
        tenants,
        new BatchEngineSettings(WorkerName(clock), options.Value.EffectiveWorkers),
        clock,
        fault => Log.BatchTrouble(logger, fault));

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        _engine.Start();
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public Task StopAsync(CancellationToken cancellationToken) => _engine.StopAsync();

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _engine.DisposeAsync();

    // A process id comes again; a start of a process does not.
    private static string WorkerName(TimeProvider clock) =>
        $"{Environment.MachineName}-{Environment.ProcessId}-{Guid.CreateVersion7(clock.GetUtcNow()):N}";
}
