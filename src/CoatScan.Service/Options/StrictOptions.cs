using CoatScan.Service.Hosting;

namespace CoatScan.Service.Options;

/// <summary>Reads a section whose keys lie deeper than <see cref="UnknownKeys"/> looks, before the service is built.</summary>
internal static class StrictOptions
{
    /// <summary>The options of a section.</summary>
    /// <exception cref="StartupException">A key is unknown, or a value is of the wrong kind.</exception>
    public static T Read<T>(IConfiguration configuration, string section)
        where T : class, new()
    {
        try
        {
            return configuration.GetSection(section).Get<T>(binder => binder.ErrorOnUnknownConfiguration = true) ?? new T();
        }
        catch (InvalidOperationException e)
        {
            throw new StartupException($"{section}: {e.Message}", e);
        }
    }
}
