using System.Data.Common;
using CoatScan.Findings;
using CoatScan.Storage;
using CoatScan.Storage.Photos;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;
using Npgsql;

namespace CoatScan.StorageTests;

/// <summary>A store in a folder of its own, and a clock to turn.</summary>
internal sealed class TempStore : IDisposable
{
    private readonly List<FindingDatabase> _databases = [];

    public TempStore(int retentionDays = 365, int busyTimeoutMs = 5_000, string postgresConnection = "")
    {
        Folder = Directory.CreateTempSubdirectory("coatscan-storage-").FullName;
        Options = new StorageOptions
        {
            Path = Path.Combine(Folder, "data", "findings.db"),
            PostgresConnection = postgresConnection,
            RetentionDays = retentionDays,
            BusyTimeoutMs = busyTimeoutMs,
        };
        Time = new FakeTimeProvider(TestFindings.Noon.AddHours(1));
    }

    public string Folder { get; }

    public StorageOptions Options { get; }

    public FakeTimeProvider Time { get; }

    public TenantContext Tenants { get; } = new();

    /// <summary>Opens the store as a process does at its start.</summary>
    public async Task<FindingStore> OpenAsync()
    {
        var store = new FindingStore(OpenDatabase(), Options, Time);
        await store.MigrateAsync(TestContext.Current.CancellationToken);
        return store;
    }

    /// <summary>Opens findings and photos as a process does at its start.</summary>
    public async Task<PhotoStore> OpenPhotosAsync()
    {
        var database = OpenDatabase();
        await new FindingStore(database, Options, Time).MigrateAsync(TestContext.Current.CancellationToken);
        var photos = new PhotoStore(database, Options, Time);
        photos.Prepare();
        return photos;
    }

    public FindingDatabase OpenDatabase()
    {
        var database = new FindingDatabase(Options, Tenants);
        _databases.Add(database);
        return database;
    }

    /// <summary>Closes what was opened so far, as the end of a process does.</summary>
    public void Close()
    {
        _databases.ForEach(database => database.Dispose());
        _databases.Clear();
    }

    /// <summary>Whether the database is PostgreSQL.</summary>
    public bool IsPostgres => Options.PostgresConnection.Length > 0;

    /// <summary>SQL that takes away what keeps the audit log from being changed.</summary>
    public string DropAuditGuard => IsPostgres
        ? "DROP TRIGGER audit_entries_append_only ON audit_entries;"
        : "DROP TRIGGER audit_entries_no_update; DROP TRIGGER audit_entries_no_delete;";

    /// <summary>Runs SQL behind the store's back.</summary>
    public object? Sql(string sql)
    {
        using DbConnection connection = IsPostgres ? new NpgsqlConnection(Options.PostgresConnection) : OpenConnection();
        if (IsPostgres)
        {
            connection.Open();
        }

        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }

    public SqliteConnection OpenConnection()
    {
        var connection = new SqliteConnection($"Data Source={Options.Path};Pooling=False");
        connection.Open();
        return connection;
    }

    public void Dispose()
    {
        Close();
        Directory.Delete(Folder, recursive: true);
    }
}
