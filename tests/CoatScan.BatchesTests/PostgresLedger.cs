using System.Globalization;
using CoatScan.Batches;
using CoatScan.RealServers;
using CoatScan.Storage;
using CoatScan.Storage.Ledger;
using Npgsql;

namespace CoatScan.BatchesTests;

/// <summary>The ledger in a database of a real PostgreSQL server.</summary>
public sealed class PostgresLedger : LedgerUnderTest
{
    private readonly List<FindingDatabase> _databases = [];
    private readonly StorageOptions _options;
    private IBatchLedger? _ledger;

    private PostgresLedger(string connection) =>
        _options = new StorageOptions { Path = "unused.db", PostgresConnection = connection };

    public override IBatchLedger Ledger => _ledger!;

    public static async Task<LedgerUnderTest> OpenAsync(SharedServers servers) => await OpenAsync(await servers.PostgresAsync());

    public static async Task<LedgerUnderTest> OpenAsync(PostgresServer server)
    {
        var store = new PostgresLedger(await server.NewDatabaseAsync());
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
        using var connection = new NpgsqlConnection(_options.PostgresConnection);
        connection.Open();
        using var command = new NpgsqlCommand("SELECT count(*) FROM findings", connection);
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    public override ValueTask DisposeAsync()
    {
        _databases.ForEach(database => database.Dispose());
        return ValueTask.CompletedTask;
    }
}
