using CoatScan.RealServers;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace CoatScan.StressTests;

/// <summary>What is killed: one service on a SQLite file, or two on a PostgreSQL database and a RabbitMQ broker.</summary>
internal sealed class KillGround : IAsyncDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly List<ServiceUnderTest> _services = [];
    private readonly List<Func<Task>> _restarts = [];
    private PostgresServer? _postgres;
    private RabbitServer? _rabbit;
    private string _connection = "";

    /// <summary>The services; each grades.</summary>
    public IReadOnlyList<ServiceUnderTest> Services => _services;

    /// <summary>Restarts database and broker, one after the other; empty where there are none.</summary>
    public IReadOnlyList<Func<Task>> Restarts => _restarts;

    public static async Task<KillGround> SqliteAsync()
    {
        var ground = new KillGround();
        ground._services.Add(await ServiceUnderTest.StartAsync(ground._folder.Path));
        return ground;
    }

    /// <exception cref="ArgumentException">A server is not installed.</exception>
    public static async Task<KillGround> SharedAsync()
    {
        if (!PostgresServer.IsInstalled || !RabbitServer.IsInstalled)
        {
            throw new ArgumentException(PostgresServer.IsInstalled ? RabbitServer.Missing : PostgresServer.Missing);
        }

        var ground = new KillGround();
        ground._postgres = await PostgresServer.StartAsync();
        ground._rabbit = await RabbitServer.StartAsync();
        ground._connection = await ground._postgres.NewDatabaseAsync();
        var settings = new Dictionary<string, string>
        {
            ["CoatScan__Storage__Engine"] = "PostgreSql",
            ["CoatScan__Storage__Connection"] = ground._connection,
            ["CoatScan__Storage__PhotoPath"] = Path.Combine(ground._folder.Path, "photos"),
            ["CoatScan__Batches__HandOut"] = "RabbitMq",
            ["CoatScan__Batches__Workers"] = "1",
            ["CoatScan__Broker__Uri"] = ground._rabbit.Uri.ToString(),
        };
        foreach (var name in new[] { "a", "b" })
        {
            ground._services.Add(await ServiceUnderTest.StartAsync(Path.Combine(ground._folder.Path, name), settings));
        }

        ground._restarts.Add(async () =>
        {
            await ground._postgres.KillAsync();
            await ground._postgres.StartAgainAsync();
        });
        ground._restarts.Add(async () =>
        {
            await ground._rabbit.KillAsync();
            await ground._rabbit.StartAgainAsync();
        });
        return ground;
    }

    /// <summary>Findings in the store, whatever items say.</summary>
    public async Task<long> CountFindingsAsync()
    {
        const string sql = "SELECT count(*) FROM findings";
        if (_connection.Length > 0)
        {
            await using var database = NpgsqlDataSource.Create(_connection);
            await using var count = database.CreateCommand(sql);
            return (long)(await count.ExecuteScalarAsync())!;
        }

        await using var connection = new SqliteConnection(
            $"Data Source={Path.Combine(_folder.Path, "coatscan.db")};Mode=ReadOnly;Pooling=False");
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        return (long)(await command.ExecuteScalarAsync())!;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var service in _services)
        {
            await service.DisposeAsync();
        }

        if (_rabbit is not null)
        {
            await _rabbit.DisposeAsync();
        }

        if (_postgres is not null)
        {
            await _postgres.DisposeAsync();
        }

        _folder.Dispose();
    }
}
