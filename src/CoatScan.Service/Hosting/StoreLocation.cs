using CoatScan.Findings;
using CoatScan.Service.Options;
using CoatScan.Storage;

namespace CoatScan.Service.Hosting;

/// <summary>Where the store of a service is, for commands that work beside it.</summary>
/// <remarks>They read the configuration that the service reads: its file beside the program, and the environment.</remarks>
internal static class StoreLocation
{
    /// <summary>The store of a service with a data folder.</summary>
    /// <exception cref="CoatScanException">The configuration says something that cannot be.</exception>
    public static StorageOptions Of(string dataFolder)
    {
        var settings = new ConfigurationBuilder()
            .SetBasePath(AppContext.BaseDirectory)
            .AddJsonFile("appsettings.json", optional: true)
            .AddEnvironmentVariables()
            .Build()
            .GetSection(StorageSettings.SectionName)
            .Get<StorageSettings>() ?? new StorageSettings();
        settings.Path = dataFolder;
        var check = new StorageSettingsConsistency().Validate(null, settings);
        return check.Failed
            ? throw new CoatScanException(ErrorReason.StorageUnavailable, check.FailureMessage)
            : settings.ToOptions();
    }
}
