using CoatScan.Storage;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace CoatScan.Service.Hosting;

/// <summary>Ready: the store answers and the server is not stopping. Model and knowledge were checked at start.</summary>
internal sealed class ReadinessCheck(FindingStore store, IHostApplicationLifetime lifetime) : IHealthCheck
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
            return HealthCheckResult.Healthy();
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            return HealthCheckResult.Unhealthy("the store does not answer");
        }
    }
}
