using Microsoft.Data.Sqlite;
using Npgsql;

namespace CoatScan.StressTests;

/// <summary>What is killed: one service on a SQLite file, or two on a PostgreSQL database and a RabbitMQ broker.</summary>
internal sealed class KillGround : IAsyncDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly List<ServiceUnderTest> _services = [];
    private SharedGround? _shared;

    /// <summary>The services; each grades.</summary>
    public IReadOnlyList<ServiceUnderTest> Services => _services;

    /// <summary>Restarts database and broker, one after the other; empty where there are none.</summary>
    public IReadOnlyList<Func<Task>> Restarts => _shared is null ? [] : [_shared.RestartPostgresAsync, _shared.RestartRabbitAsync];

    public static async Task<KillGround> SqliteAsync()
    {
        var ground = new KillGround();
        ground._services.Add(await ServiceUnderTest.StartAsync(ground._folder.Path));
        return ground;
    }

    /// <exception cref="ArgumentException">A server is not installed.</exception>
    public static async Task<KillGround> SharedAsync()
    {
        var ground = new KillGround { _shared = await SharedGround.StartAsync() };
        foreach (var name in new[] { "a", "b" })
        {
            ground._services.Add(await ground._shared.StartServiceAsync(name));
        }

        return ground;
    }

    /// <summary>Findings in the store, whatever items say.</summary>
    public async Task<long> CountFindingsAsync()
    {
        const string sql = "SELECT count(*) FROM findings";
        if (_shared is not null)
        {
            await using var database = NpgsqlDataSource.Create(_shared.Connection);
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

        if (_shared is not null)
        {
            await _shared.DisposeAsync();
        }

        _folder.Dispose();
    }
}
