using CoatScan.Storage;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;

namespace CoatScan.StorageTests;

/// <summary>A store in a folder of its own, and a clock to turn.</summary>
internal sealed class TempStore : IDisposable
{
    private readonly List<FindingStore> _stores = [];

    public TempStore(int retentionDays = 365, int busyTimeoutMs = 5_000)
    {
        Folder = Directory.CreateTempSubdirectory("coatscan-storage-").FullName;
        Options = new StorageOptions
        {
            Path = Path.Combine(Folder, "data", "findings.db"),
            RetentionDays = retentionDays,
            BusyTimeoutMs = busyTimeoutMs,
        };
        Time = new FakeTimeProvider(TestFindings.Noon.AddHours(1));
    }

    public string Folder { get; }

    public StorageOptions Options { get; }

    public FakeTimeProvider Time { get; }

    /// <summary>Opens the store as a process does at its start.</summary>
    public async Task<FindingStore> OpenAsync()
    {
        var store = new FindingStore(Options, Time);
        _stores.Add(store);
        await store.MigrateAsync(TestContext.Current.CancellationToken);
        return store;
    }

    /// <summary>Runs SQL behind the store's back.</summary>
    public object? Sql(string sql)
    {
        using var connection = OpenConnection();
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
        foreach (var store in _stores)
        {
            store.Dispose();
        }

        Directory.Delete(Folder, recursive: true);
    }
}
