using CoatScan.RealServers;

namespace CoatScan.StressTests;

/// <summary>A PostgreSQL database and a RabbitMQ broker of the trial's own, and services that share them; each grades one panel at a time.</summary>
internal sealed class SharedGround : IAsyncDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly PostgresServer _postgres;
    private readonly RabbitServer _rabbit;

    private SharedGround(PostgresServer postgres, RabbitServer rabbit, string connection) =>
        (_postgres, _rabbit, Connection) = (postgres, rabbit, connection);

    /// <summary>Connection string of the database.</summary>
    public string Connection { get; }

    /// <exception cref="ArgumentException">A server is not installed.</exception>
    public static async Task<SharedGround> StartAsync()
    {
        if (!PostgresServer.IsInstalled || !RabbitServer.IsInstalled)
        {
            throw new ArgumentException(PostgresServer.IsInstalled ? RabbitServer.Missing : PostgresServer.Missing);
        }

        var postgres = await PostgresServer.StartAsync();
        var rabbit = await RabbitServer.StartAsync();
        return new SharedGround(postgres, rabbit, await postgres.NewDatabaseAsync());
    }

    /// <summary>Starts a service.</summary>
    /// <param name="name">Its folder beside the photos that all share.</param>
    /// <param name="core">The only core it may use; null for any.</param>
    public Task<ServiceUnderTest> StartServiceAsync(string name, int? core = null)
    {
        var settings = new Dictionary<string, string>
        {
            ["CoatScan__Storage__Engine"] = "PostgreSql",
            ["CoatScan__Storage__Connection"] = Connection,
            ["CoatScan__Storage__PhotoPath"] = Path.Combine(_folder.Path, "photos"),
            ["CoatScan__Batches__HandOut"] = "RabbitMq",
            ["CoatScan__Batches__Workers"] = "1",
            ["CoatScan__Broker__Uri"] = _rabbit.Uri.ToString(),
        };
        return ServiceUnderTest.StartAsync(Path.Combine(_folder.Path, name), settings, core);
    }

    /// <summary>Kills the database and starts it again.</summary>
    public async Task RestartPostgresAsync()
    {
        await _postgres.KillAsync();
        await _postgres.StartAgainAsync();
    }

    /// <summary>Kills the broker and starts it again.</summary>
    public async Task RestartRabbitAsync()
    {
        await _rabbit.KillAsync();
        await _rabbit.StartAgainAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await _rabbit.DisposeAsync();
        await _postgres.DisposeAsync();
        _folder.Dispose();
    }
}
