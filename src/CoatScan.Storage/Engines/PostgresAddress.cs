using Npgsql;

namespace CoatScan.Storage.Engines;

/// <summary>Reads connection strings of PostgreSQL. What it says of a wrong one never repeats it: it may hold a password.</summary>
public static class PostgresAddress
{
    /// <summary>Why a text is no connection string for us, as a sentence; null if it is one.</summary>
    public static string? WhyRefused(string text) => Read(text).Refusal;

    internal static (NpgsqlConnectionStringBuilder? Connection, string? Refusal) Read(string text)
    {
        try
        {
            var connection = new NpgsqlConnectionStringBuilder(text);
            return connection is { Host.Length: > 0, Database.Length: > 0 }
                ? (connection, null)
                : (null, "The connection of PostgreSQL needs a Host and a Database.");
        }
        catch (Exception error) when (error is ArgumentException or FormatException or InvalidCastException)
        {
            return (null, "The connection of PostgreSQL is no list of 'Name=value;' with names and values that it knows.");
        }
    }
}
