using System.ComponentModel.DataAnnotations;
using CoatScan.Storage;

namespace CoatScan.Service.Options;

/// <summary>Where findings and photos are kept and for how long. Section <c>CoatScan:Storage</c>.</summary>
public sealed class StorageSettings
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Storage";

    /// <summary>Name of the database in its folder.</summary>
    public const string DatabaseFileName = "coatscan.db";

    /// <summary>The engine that keeps everything in one file.</summary>
    public const string Sqlite = "Sqlite";

    /// <summary>The engine that several machines can share.</summary>
    public const string PostgreSql = "PostgreSql";

    /// <summary>What everything but the photos' bytes is kept in: <c>Sqlite</c> or <c>PostgreSql</c>.</summary>
    public string Engine { get; set; } = Sqlite;

    /// <summary>Connection string of PostgreSQL; empty with SQLite.</summary>
    public string Connection { get; set; } = "";

    /// <summary>Folder of the database; created if missing. Empty means <c>data</c> under the working folder.</summary>
    public string Path { get; set; } = "";

    /// <summary>Days a finding is kept, [1, 36500].</summary>
    [Range(1, 36_500)]
    public int RetentionDays { get; set; } = 365;

    /// <summary>Folder of the photos; created if missing. Empty means <c>photos</c> in the folder of the database. Machines that
    /// share a database have to share this folder too.</summary>
    public string PhotoPath { get; set; } = "";

    /// <summary>Days a photo is kept, [1, 36500].</summary>
    [Range(1, 36_500)]
    public int PhotoRetentionDays { get; set; } = 365;

    /// <summary>Whether the engine is PostgreSQL.</summary>
    internal bool IsPostgreSql => Engine.Equals(PostgreSql, StringComparison.OrdinalIgnoreCase);

    /// <summary>The same for the stores.</summary>
    internal StorageOptions ToOptions() => new()
    {
        Path = System.IO.Path.Combine(Path.Length > 0 ? Path : "data", DatabaseFileName),
        PostgresConnection = IsPostgreSql ? Connection : "",
        RetentionDays = RetentionDays,
        PhotoPath = PhotoPath,
        PhotoRetentionDays = PhotoRetentionDays,
    };
}
