using CoatScan.Service.Batches;
using CoatScan.Storage;
using CoatScan.Storage.Photos;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace CoatScan.Service.Hosting;

/// <summary>Ready: the store answers, the photo folder takes files and the server is not stopping. Model and knowledge were checked at start.</summary>
/// <remarks>Without its broker a process still answers calls, and batches wait: it stays in service, and says so.</remarks>
internal sealed class ReadinessCheck(
    FindingStore store, PhotoStore photos, BatchCarrier carrier, IHostApplicationLifetime lifetime) : IHealthCheck
{
    /// <inheritdoc />
    public async Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default)
    {
        if (lifetime.ApplicationStopping.IsCancellationRequested)
        {
            return HealthCheckResult.Unhealthy("stopping");
        }

        try
        {
            await store.CheckAsync(cancellationToken).ConfigureAwait(false);
            photos.Prepare();
            return carrier.IsBroken
                ? HealthCheckResult.Degraded("the broker does not answer; batches wait")
                : HealthCheckResult.Healthy();
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            return HealthCheckResult.Unhealthy("the store does not answer");
        }
    }
}
