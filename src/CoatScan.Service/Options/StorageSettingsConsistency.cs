using CoatScan.Storage.Engines;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Checks what no single field can tell: the engine is one of ours, and there is a connection where it needs one.</summary>
internal sealed class StorageSettingsConsistency : IValidateOptions<StorageSettings>
{
    /// <inheritdoc />
    public ValidateOptionsResult Validate(string? name, StorageSettings options)
    {
        var isSqlite = options.Engine.Equals(StorageSettings.Sqlite, StringComparison.OrdinalIgnoreCase);
        return options switch
        {
            { IsPostgreSql: false } when !isSqlite => Fail(
                $"Engine is '{options.Engine}'; it must be {StorageSettings.Sqlite} or {StorageSettings.PostgreSql}."),
            { IsPostgreSql: true, Connection.Length: 0 } => Fail(
                $"Engine {StorageSettings.PostgreSql} needs a Connection, for example 'Host=db;Database=coatscan;Username=coatscan;Password=...'."),
            { IsPostgreSql: true } when PostgresAddress.WhyRefused(options.Connection) is { } why => Fail(why),
            { IsPostgreSql: false, Connection.Length: > 0 } => Fail(
                $"there is a Connection, but Engine is {StorageSettings.Sqlite}; set it to {StorageSettings.PostgreSql}, or take the Connection out."),
            _ => ValidateOptionsResult.Success,
        };
    }

    private static ValidateOptionsResult Fail(string what) =>
        ValidateOptionsResult.Fail($"{StorageSettings.SectionName}: {what}");
}
