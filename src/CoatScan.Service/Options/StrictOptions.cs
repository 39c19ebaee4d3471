using System.Text.RegularExpressions;
using CoatScan.Service.Hosting;

namespace CoatScan.Service.Options;

/// <summary>Reads a section whose keys lie deeper than <see cref="UnknownKeys"/> looks, before the service is built.</summary>
internal static partial class StrictOptions
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
            // The binder's own sentence speaks of its options; the keys stand at its end, in quotes.
            var unknown = KeysAtEnd().Match(Innermost(e).Message);
            throw new StartupException(
                unknown.Success
                    ? $"Unknown setting {unknown.Groups["keys"].Value.Replace("'", "", StringComparison.Ordinal)} in {section}."
                    : $"{section}: {Innermost(e).Message}",
                e);
        }
    }

    private static Exception Innermost(InvalidOperationException error)
    {
        var inner = (Exception)error;
        while (inner.InnerException is InvalidOperationException deeper)
        {
            inner = deeper;
        }

        return inner;
    }

    [GeneratedRegex("^'ErrorOnUnknownConfiguration'.*: (?<keys>'[^:]*)$")]
    private static partial Regex KeysAtEnd();
}
