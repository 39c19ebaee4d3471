using System.Diagnostics;
using System.Net;
using CoatScan.FunctionalTests.CommandLine;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.RealServers;
using CoatScan.V1;
using Npgsql;

[assembly: AssemblyFixture(typeof(SharedServers))]

namespace CoatScan.FunctionalTests.Server.Batches;

/// <summary>Processes that share a PostgreSQL database, a RabbitMQ broker and a folder of photos.</summary>
public sealed class SeveralMachinesTests(SharedServers servers) : IDisposable
{
    private const int Count = 12;

    private readonly TempFolder _folder = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task One_of_two_processes_is_killed_and_every_item_gets_one_finding()
    {
        var postgres = await servers.PostgresAsync();
        var connection = await postgres.NewDatabaseAsync();
        var settings = Settings(connection, (await servers.RabbitAsync()).Uri, "killed");
        await using var stays = await ServiceProcess.StartWithSettingsAsync(Path.Combine(_folder.Path, "a"), settings);
        var dies = await ServiceProcess.StartWithSettingsAsync(Path.Combine(_folder.Path, "b"), settings);
        var add = new AddBatchItemsRequest { Name = "batches/shared" };
        for (var i = 0; i < Count; i++)
        {
            // Sent to the one and graded by both: the folder is shared.
            var photo = await dies.Photos.SendAsync(Uploads.Of(BatchSteps.Variant(Panels.Sound, 3000 + i)));
            add.Items.Add(BatchSteps.Item($"item-{i}", "lot", photo.Name));
        }

        await dies.Batches.CreateBatchAsync(new CreateBatchRequest { BatchId = "shared" });
        await dies.Batches.AddBatchItemsAsync(add);
        await dies.Batches.StartBatchAsync(new StartBatchRequest { Name = add.Name });
        await UntilAsync(stays, batch => batch.GradedCount >= 2);
        await dies.DisposeAsync();

        var rest = await UntilAsync(stays, batch => batch.FinishTime is not null);

        Assert.Equal((Count, 0), (rest.GradedCount, rest.FailedCount));
        var items = (await stays.Batches.ListBatchItemsAsync(new ListBatchItemsRequest { Parent = add.Name })).Items;
        Assert.Equal(Count, items.Select(item => item.Finding).Distinct().Count());
        Assert.Equal((long)Count, await CountAsync(connection, "SELECT count(*) FROM findings"));
        Assert.Equal(
            Enumerable.Range(1, (int)(await CountAsync(connection, "SELECT count(*) FROM batch_events"))).Select(one => (long)one),
            await SequencesAsync(stays, add.Name));
    }

    [Fact]
    public async Task Readiness_fails_without_the_database_and_tells_of_a_broker_that_is_away()
    {
        await using var postgres = await SharedServers.OwnPostgresAsync();
        await using var rabbit = await SharedServers.OwnRabbitAsync();
        await using var server = await RunningServer.StartAsync(
            [.. Settings(await postgres.NewDatabaseAsync(), rabbit.Uri, "ready")]);
        Assert.Equal((HttpStatusCode.OK, "Healthy"), await ReadyAsync(server));

        await rabbit.StopAsync();
        await UntilReadyIsAsync(server, (HttpStatusCode.OK, "Degraded"));
        await rabbit.StartAgainAsync();
        await UntilReadyIsAsync(server, (HttpStatusCode.OK, "Healthy"));

        await postgres.StopAsync();
        await UntilReadyIsAsync(server, (HttpStatusCode.ServiceUnavailable, "Unhealthy"));
        await postgres.StartAgainAsync();
        await UntilReadyIsAsync(server, (HttpStatusCode.OK, "Healthy"));
    }

    [Fact]
    public async Task Commands_beside_the_service_read_its_environment()
    {
        var connection = await (await servers.PostgresAsync()).NewDatabaseAsync();

        var (keyCode, key, _) = await RunAsync(connection, "keys", "create", "--tenant", "north", "--scope", "write");
        var (auditCode, audit, _) = await RunAsync(connection, "audit", "verify");
        var (backupCode, _, backupError) = await RunAsync(connection, "backup", "--out", Path.Combine(_folder.Path, "copy"));

        Assert.Equal((0, 0, 1), (keyCode, auditCode, backupCode));
        Assert.StartsWith("coatscan_", key, StringComparison.Ordinal);
        Assert.StartsWith("Whole: 1 entries", audit, StringComparison.Ordinal);
        Assert.Contains("pg_dump", backupError, StringComparison.Ordinal);
        Assert.Equal(1L, await CountAsync(connection, "SELECT count(*) FROM api_keys"));
        Assert.False(File.Exists(Path.Combine(_folder.Path, "coatscan.db")));
    }

    private List<(string Key, string Value)> Settings(string connection, Uri broker, string prefix) =>
    [
        ("CoatScan:Storage:Engine", "PostgreSql"),
        ("CoatScan:Storage:Connection", connection),
        ("CoatScan:Storage:PhotoPath", Path.Combine(_folder.Path, "photos")),
        ("CoatScan:Batches:HandOut", "RabbitMq"),
        ("CoatScan:Batches:Workers", "1"),
        ("CoatScan:Broker:Uri", broker.ToString()),
        ("CoatScan:Broker:Prefix", prefix),
    ];

    private async Task<(int Code, string Output, string Error)> RunAsync(string connection, params string[] words)
    {
        var start = new ProcessStartInfo(
            "dotnet", [Path.Combine(AppContext.BaseDirectory, "coatscan.dll"), .. words, "--data", _folder.Path])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        start.Environment["CoatScan__Storage__Engine"] = "PostgreSql";
        start.Environment["CoatScan__Storage__Connection"] = connection;
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync(Token);
        var error = await process.StandardError.ReadToEndAsync(Token);
        await process.WaitForExitAsync(Token);
        return (process.ExitCode, await output, error);
    }

    private static async Task<Batch> UntilAsync(ServiceProcess service, Predicate<Batch> wanted)
    {
        Batch batch;
        while (!wanted(batch = await service.Batches.GetBatchAsync(new GetBatchRequest { Name = "batches/shared" })))
        {
            await Task.Delay(100, Token);
        }

        return batch;
    }

    private static async Task<List<long>> SequencesAsync(ServiceProcess service, string batch)
    {
        using var call = service.Batches.WatchBatch(new WatchBatchRequest { Name = batch }, cancellationToken: Token);
        var sequences = new List<long>();
        while (await call.ResponseStream.MoveNext(Token))
        {
            sequences.Add(call.ResponseStream.Current.Sequence);
        }

        return sequences;
    }

    private static async Task<long> CountAsync(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync(Token);
        await using var command = new NpgsqlCommand(sql, connection);
        return (long)(await command.ExecuteScalarAsync(Token))!;
    }

    private static async Task<(HttpStatusCode Status, string Text)> ReadyAsync(RunningServer server)
    {
        using var response = await server.Http.GetAsync("/health/ready", Token);
        return (response.StatusCode, await response.Content.ReadAsStringAsync(Token));
    }

    private static async Task UntilReadyIsAsync(RunningServer server, (HttpStatusCode, string) wanted)
    {
        while (await ReadyAsync(server) != wanted)
        {
            await Task.Delay(100, Token);
        }
    }
}
