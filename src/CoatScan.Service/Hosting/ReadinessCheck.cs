using CoatScan.Storage;
using CoatScan.Storage.Photos;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace CoatScan.Service.Hosting;

/// <summary>Ready: the store answers, the photo folder takes files and the server is not stopping. Model and knowledge were checked at start.</summary>
internal sealed class ReadinessCheck(FindingStore store, PhotoStore photos, IHostApplicationLifetime lifetime) : IHealthCheck
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
            return HealthCheckResult.Healthy();
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            return HealthCheckResult.Unhealthy("the store does not answer");
        }
    }
}
