using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage;
using CoatScan.Storage.Engines;
using CoatScan.Storage.Ledger;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Npgsql;

namespace CoatScan.StorageTests;

/// <summary>What is particular to PostgreSQL: what is checked at start, the lock of the writer, the server's clock.</summary>
public sealed class PostgresStartupTests(SharedServers servers)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("fsync")]
    [InlineData("full_page_writes")]
    public async Task MigrateAsync_server_that_does_not_sync_is_refused(string setting)
    {
        await using var server = await SharedServers.OwnPostgresAsync();
        await PostgresServer.ExecuteAsync(server.ConnectionTo("postgres"), $"ALTER SYSTEM SET {setting} = off");
        await PostgresServer.ExecuteAsync(server.ConnectionTo("postgres"), "SELECT pg_reload_conf()");
        // The server tells its processes some time after it answered.
        while (await ShowAsync(server.ConnectionTo("postgres") + ";Pooling=false", setting) == "on")
        {
            await Task.Delay(20, Token);
        }

        Assert.Equal(
            $"its server does not keep commits over a loss of power ({setting} is off)",
            await WhyAsync(server.ConnectionTo("postgres")));
    }

    [Fact]
    public async Task MigrateAsync_database_that_does_not_sync_at_commit_is_refused()
    {
        var connection = await NewDatabaseAsync();
        var database = new NpgsqlConnectionStringBuilder(connection).Database;
        await PostgresServer.ExecuteAsync(connection, $"ALTER DATABASE {database} SET synchronous_commit = off");

        // Settings of a database hold for new sessions; the pool has one of before.
        Assert.Equal(
            "its server does not keep commits over a loss of power (synchronous_commit is off)",
            await WhyAsync(connection + ";Pooling=false"));
    }

    [Fact]
    public async Task MigrateAsync_server_that_is_not_there_is_named_without_the_password()
    {
        Assert.Equal(
            "its server cannot be reached",
            await WhyAsync($"Host=127.0.0.1;Port={ServerProcess.FreePort()};Database=coatscan;Username=u;Password=secret"));
    }

    [Fact]
    public async Task MigrateAsync_wrong_password_and_missing_database_say_so()
    {
        var connection = await NewDatabaseAsync();

        Assert.Equal("its server refuses the user or the password", await WhyAsync(connection + ";Password=wrong"));
        Assert.Equal("its server has no such database", await WhyAsync(connection + ";Database=elsewhere"));
    }

    [Fact]
    public async Task MigrateAsync_tables_of_somebody_else_and_of_a_newer_program_are_refused()
    {
        var foreign = await NewDatabaseAsync();
        await PostgresServer.ExecuteAsync(foreign, "CREATE TABLE findings (x int)");
        Assert.Equal("its tables are not those of this program", await WhyAsync(foreign));

        var newer = await NewDatabaseAsync();
        Assert.Null(await WhyAsync(newer));
        await PostgresServer.ExecuteAsync(newer, "INSERT INTO \"__EFMigrationsHistory\" VALUES ('29990101000000_Later', '99')");
        Assert.Equal("it was written by a newer version of this program", await WhyAsync(newer));
    }

    [Theory]
    [InlineData("Host")]
    [InlineData("Host=db")]
    [InlineData("Host=db;Database=coatscan;Port=many")]
    public void Constructor_connection_that_is_none_throws_without_repeating_it(string connection)
    {
        var options = new StorageOptions { Path = "x.db", PostgresConnection = connection };

        var error = Assert.Throws<ArgumentException>(() => new FindingDatabase(options, new TenantContext()));

        Assert.StartsWith("The connection of PostgreSQL", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("many", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task MigrateAsync_of_several_processes_at_once_makes_the_tables_once()
    {
        var connection = await NewDatabaseAsync();

        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => WhyAsync(connection), Token)));

        Assert.All(answers, Assert.Null);
    }

    [Fact]
    public async Task WriteAsync_while_another_process_writes_is_unavailable_after_the_busy_timeout_and_readers_go_on()
    {
        using var temp = new TempStore(busyTimeoutMs: 50, postgresConnection: await NewDatabaseAsync());
        var store = await temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        var held = new TaskCompletionSource();
        var release = new TaskCompletionSource();
        var other = temp.OpenDatabase().WriteAsync(
            async (_, _) =>
            {
                held.SetResult();
                await release.Task;
                return true;
            },
            Token);
        await held.Task;

        var error = await Assert.ThrowsAsync<CoatScanException>(
            () => store.SaveAsync(TestFindings.Small(2), cancellationToken: Token));
        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
        Assert.Equal("findings/f000001", (await store.GetAsync("findings/f000001", Token)).Name);

        release.SetResult();
        await other;
        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Store_is_unavailable_while_its_server_is_down_and_comes_back_with_it(bool kill)
    {
        await using var server = await SharedServers.OwnPostgresAsync();
        using var temp = new TempStore(postgresConnection: await server.NewDatabaseAsync());
        var store = await temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);

        await (kill ? server.KillAsync() : server.StopAsync());
        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.CheckAsync(Token));
        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
        await server.StartAgainAsync();

        Assert.Equal("findings/f000001", (await store.GetAsync("findings/f000001", Token)).Name);
        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);
        Assert.True((await store.VerifyAuditAsync(Token)).Intact);
    }

    [Fact]
    public async Task Lease_ends_by_the_clock_of_the_server_whatever_the_worker_s_clock_says()
    {
        using var temp = new TempStore(postgresConnection: await NewDatabaseAsync());
        var wrong = new FakeTimeProvider(new DateTimeOffset(2001, 1, 1, 0, 0, 0, TimeSpan.Zero));
        await using var provider = new ServiceCollection()
            .AddSingleton<TimeProvider>(wrong)
            .AddFindingStorage(_ => temp.Options)
            .BuildServiceProvider();
        await provider.GetRequiredService<FindingStore>().MigrateAsync(Token);
        var ledger = provider.GetRequiredService<IBatchLedger>();
        await ledger.CreateAsync("lots", "", null, Token);
        await ledger.AddItemsAsync("lots", [new NewItem("a", "", [$"photos/{new string('a', 64)}"], new PanelFacts())], Token);
        await ledger.StartAsync("lots", null, Token);

        await ledger.ClaimAsync(new ItemRef(Tenant.Local, "lots", "a"), "worker", TimeSpan.FromHours(1), Token);

        // Ticks of 100 ns since the year 1; 621355968000000000 of them lie before 1970.
        var leaseEndsIn = (decimal)temp.Sql(
            "SELECT (lease_until_ticks - 621355968000000000) / 1e7 - extract(epoch FROM clock_timestamp()) FROM batch_items")!;
        Assert.InRange(leaseEndsIn, 3_500, 3_600);
    }

    [Fact]
    public async Task Text_that_PostgreSQL_does_not_take_is_a_fault_of_the_field()
    {
        using var temp = new TempStore(postgresConnection: await NewDatabaseAsync());
        await temp.OpenAsync();
        var ledger = new BatchLedger(temp.OpenDatabase(), temp.Time);

        var error = await Assert.ThrowsAsync<CoatScanException>(() => ledger.CreateAsync("lots", "a\0b", null, Token));

        Assert.Equal(ErrorReason.FieldInvalid, error.Reason);
        Assert.Equal("überprüft 塗装", (await ledger.CreateAsync("lots", "überprüft 塗装", null, Token)).DisplayName);
    }

    [Theory]
    [InlineData("42703", false)] // undefined column
    [InlineData("23505", false)] // unique violation
    [InlineData("22021", false)] // a character that no text holds
    [InlineData("57P01", true)] // shut down by an operator
    [InlineData("08006", true)] // connection failure
    [InlineData("53100", true)] // disk full
    [InlineData("55P03", true)] // lock not available
    public void IsFailure_tells_the_server_s_faults_from_bugs_of_ours(string state, bool isFailure)
    {
        using var engine = new PostgresEngine(new StorageOptions { Path = "x.db", PostgresConnection = "Host=db;Database=coatscan" });
        var error = new PostgresException("message", "ERROR", "ERROR", state);

        Assert.Equal(isFailure, engine.IsFailure(error));
        Assert.Equal(isFailure, engine.IsFailure(new DbUpdateException("x", error)));
        Assert.False(engine.IsFailure(new InvalidOperationException("no inner one")));
    }

    private async Task<string> NewDatabaseAsync() => await (await servers.PostgresAsync()).NewDatabaseAsync();

    private static async Task<string?> ShowAsync(string connectionString, string setting)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync(Token);
        await using var command = new NpgsqlCommand($"SHOW {setting}", connection);
        return (string?)await command.ExecuteScalarAsync(Token);
    }

    /// <summary>Why the start of a store fails, as its one sentence says; null if it does not.</summary>
    private static async Task<string?> WhyAsync(string connection)
    {
        using var temp = new TempStore(postgresConnection: connection);
        try
        {
            await temp.OpenAsync();
            return null;
        }
        catch (CoatScanException error)
        {
            var builder = new NpgsqlConnectionStringBuilder(connection);
            Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
            Assert.StartsWith($"The store {builder.Host}/{builder.Database} cannot be used: ", error.Message, StringComparison.Ordinal);
            Assert.DoesNotContain(builder.Password!, error.Message, StringComparison.Ordinal);
            return error.Metadata["why"];
        }
    }
}
