using CoatScan.RealServers;

[assembly: AssemblyFixture(typeof(SharedServers))]

namespace CoatScan.StorageTests;

/// <summary>A test that every database has to pass; a class for each opens it.</summary>
/// <param name="servers">Where PostgreSQL runs; null for SQLite.</param>
public abstract class StoreTest(SharedServers? servers) : IAsyncLifetime
{
    /// <summary>A store of the test's own.</summary>
    private protected TempStore Temp { get; private set; } = null!;

    public async ValueTask InitializeAsync() => Temp = new TempStore(
        postgresConnection: servers is null ? "" : await (await servers.PostgresAsync()).NewDatabaseAsync());

    public ValueTask DisposeAsync()
    {
        Temp?.Dispose();
        GC.SuppressFinalize(this);
        return ValueTask.CompletedTask;
    }
}
