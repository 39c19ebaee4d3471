using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Keys;
using CoatScan.Storage.Ledger;
using CoatScan.Storage.Photos;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace CoatScan.Storage;

/// <summary>Adds the stores to a host.</summary>
public static class StorageServices
{
    /// <summary>Adds one <see cref="FindingStore"/> and one <see cref="PhotoStore"/> over one database for the whole process; the host
    /// calls MigrateAsync of the first and then Prepare of the second at start.</summary>
    /// <param name="services">Where to add it.</param>
    /// <param name="options">Where the options come from; asked once.</param>
    public static IServiceCollection AddFindingStorage(
        this IServiceCollection services, Func<IServiceProvider, StorageOptions> options)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton<TenantContext>();
        services.TryAddSingleton(provider => new AskedOptions(options(provider)));
        services.TryAddSingleton(provider => new FindingDatabase(
            provider.GetRequiredService<AskedOptions>().Value, provider.GetRequiredService<TenantContext>()));
        services.TryAddSingleton(provider => new FindingStore(
            provider.GetRequiredService<FindingDatabase>(),
            provider.GetRequiredService<AskedOptions>().Value,
            provider.GetRequiredService<TimeProvider>()));
        services.TryAddSingleton<PictureIndex>();
        services.TryAddSingleton(provider => new PhotoStore(
            provider.GetRequiredService<FindingDatabase>(),
            provider.GetRequiredService<AskedOptions>().Value,
            provider.GetRequiredService<TimeProvider>()));
        services.TryAddSingleton<IBatchLedger>(provider =>
        {
            var database = provider.GetRequiredService<FindingDatabase>();
            return new BatchLedger(database, database.Engine.ServerClock ?? provider.GetRequiredService<TimeProvider>());
        });
        services.TryAddSingleton<ApiKeyStore>();
        services.TryAddSingleton<AuditLog>();
        return services;
    }

    // Keeps "asked once" true for three readers, without claiming StorageOptions for the whole host.
    private sealed record AskedOptions(StorageOptions Value);
}
