using System.Globalization;
using CoatScan.Batches;
using CoatScan.Storage;
using CoatScan.Storage.Ledger;
using Microsoft.Data.Sqlite;

namespace CoatScan.BatchesTests;

/// <summary>The ledger in a SQLite file.</summary>
public sealed class SqliteLedger : LedgerUnderTest
{
    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-ledger-").FullName;
    private readonly List<FindingDatabase> _databases = [];
    private readonly StorageOptions _options;
    private IBatchLedger? _ledger;

    private SqliteLedger() => _options = new StorageOptions { Path = System.IO.Path.Combine(_folder, "coatscan.db") };

    public override IBatchLedger Ledger => _ledger!;

    /// <summary>The file.</summary>
    public string Path => _options.Path;

    public static async Task<LedgerUnderTest> OpenAsync()
    {
        var store = new SqliteLedger();
        store._ledger = await store.OpenAnotherAsync();
        return store;
    }

    public override async Task<IBatchLedger> OpenAnotherAsync()
    {
        var database = new FindingDatabase(_options, Tenants);
        _databases.Add(database);
        await new FindingStore(database, _options, Clock).MigrateAsync(TestContext.Current.CancellationToken);
        return new BatchLedger(database, Clock);
    }

    public override long CountFindings()
    {
        using var connection = new SqliteConnection($"Data Source={_options.Path};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM findings";
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    public override ValueTask DisposeAsync()
    {
        _databases.ForEach(database => database.Dispose());
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }
}
