using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace CoatScan.Storage;

/// <summary>Adds the store to a host.</summary>
public static class StorageServices
{
    /// <summary>Adds one <see cref="FindingStore"/> for the whole process; the host calls its MigrateAsync at start.</summary>
    /// <param name="services">Where to add it.</param>
    /// <param name="options">Where the options come from; asked once.</param>
    public static IServiceCollection AddFindingStorage(
        this IServiceCollection services, Func<IServiceProvider, StorageOptions> options)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton(provider =>
            new FindingStore(options(provider), provider.GetRequiredService<TimeProvider>()));
        return services;
    }
}
