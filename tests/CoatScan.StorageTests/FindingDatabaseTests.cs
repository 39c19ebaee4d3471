using CoatScan.Findings;
using CoatScan.Storage;
using CoatScan.Storage.Engines;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.StorageTests;

public sealed class FindingDatabaseTests : IDisposable
{
    private readonly TempStore _temp = new(busyTimeoutMs: 50);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task ReadAsync_every_connection_syncs_at_commit_and_uses_the_write_ahead_log()
    {
        await _temp.OpenAsync();
        using var database = new FindingDatabase(_temp.Options, _temp.Tenants);

        // Several at once, so that the pool has to open more than one connection.
        var settings = await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => database.ReadAsync(
            async (context, token) =>
            {
                await context.Database.OpenConnectionAsync(token);
                var connection = context.Database.GetDbConnection();
                return (Pragma(connection, "synchronous"), Pragma(connection, "journal_mode"), Pragma(connection, "busy_timeout"));
            },
            Token)));

        // 2 is FULL (sqlite.org, "PRAGMA synchronous").
        Assert.All(settings, setting => Assert.Equal(("2", "wal", "50"), setting));
    }

    [Fact]
    public async Task WriteAsync_while_another_process_writes_is_unavailable_after_the_busy_timeout()
    {
        var store = await _temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        using (var other = _temp.OpenConnection())
        {
            using var transaction = other.BeginTransaction();

            foreach (var call in new Func<Task>[]
            {
                () => store.SaveAsync(TestFindings.Small(2), cancellationToken: Token),
                () => store.DeleteAsync("findings/f000001", Token),
                () => store.CheckAsync(Token),
            })
            {
                var error = await Assert.ThrowsAsync<CoatScanException>(call);
                Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
                Assert.DoesNotContain(_temp.Folder, error.Message, StringComparison.Ordinal);
            }

            // Readers need not wait for a writer.
            Assert.Equal("findings/f000001", (await store.GetAsync("findings/f000001", Token)).Name);
        }

        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);
    }

    [Fact]
    public async Task Audit_log_refuses_to_be_replaced_row_by_row()
    {
        var store = await _temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);

        // Behind REPLACE stands a delete, for which SQLite asks triggers only with this pragma.
        var error = Assert.Throws<SqliteException>(() => _temp.Sql(
            "PRAGMA recursive_triggers = ON; "
            + "INSERT OR REPLACE INTO audit_entries (sequence, time, action, resource, outcome, previous_hash, hash) "
            + "SELECT 1, time, action, resource, 'x', previous_hash, hash FROM audit_entries WHERE sequence = 1"));

        Assert.Contains("append-only", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ListOfReferenceAsync_seeks_in_its_index()
    {
        await _temp.OpenAsync();
        using var connection = _temp.OpenConnection();
        using var command = connection.CreateCommand();
        command.CommandText = "EXPLAIN QUERY PLAN SELECT id FROM findings WHERE tenant = 'local' AND external_ref = 'claim' ORDER BY create_time_ticks DESC";
        using var plan = await command.ExecuteReaderAsync(Token);
        Assert.True(await plan.ReadAsync(Token));
        Assert.Contains("findings_by_reference", plan.GetString(3), StringComparison.Ordinal);
    }

    [Fact]
    public async Task WriteAsync_many_at_once_all_succeed()
    {
        var store = await _temp.OpenAsync();

        await Task.WhenAll(Enumerable.Range(0, 100).Select(number => Task.Run(
            () => store.SaveAsync(TestFindings.Small(number), cancellationToken: Token), Token)));

        Assert.Equal(100L, _temp.Sql("SELECT count(*) FROM findings"));
        Assert.True((await store.VerifyAuditAsync(Token)).Intact);
    }

    [Fact]
    public async Task ReadAsync_file_damaged_while_open_is_unavailable()
    {
        var store = await _temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        _temp.Close();
        await File.WriteAllTextAsync(_temp.Options.Path, new string('x', 10_000), Token);
        var again = new FindingStore(_temp.OpenDatabase(), _temp.Options, _temp.Time);

        foreach (var call in new Func<Task>[]
        {
            () => again.GetAsync("findings/f000001", Token),
            () => again.ListAsync(cancellationToken: Token),
            () => again.VerifyAuditAsync(Token),
            () => again.PurgeAsync(Token),
        })
        {
            var error = await Assert.ThrowsAsync<CoatScanException>(call);
            Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
            Assert.NotNull(error.InnerException);
        }
    }

    [Fact]
    public async Task WriteAsync_full_disk_is_unavailable_and_leaves_the_store_whole()
    {
        await _temp.OpenAsync();
        using var database = new FindingDatabase(_temp.Options, _temp.Tenants);

        var error = await Assert.ThrowsAsync<CoatScanException>(() => database.WriteAsync(
            async (context, token) =>
            {
                // SQLite's own way to play a full disk: no page more than there are.
                await context.Database.ExecuteSqlRawAsync("PRAGMA max_page_count = 1", token);
                await context.Database.ExecuteSqlRawAsync(
                    "INSERT INTO findings (id, create_time_ticks, verdict, panel, external_ref, document, tenant) "
                    + "VALUES ('a', 1, 'v', 'p', 'e', hex(randomblob(100000)), 'local')",
                    token);
                return true;
            },
            Token));

        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
        Assert.Equal(13, Assert.IsType<SqliteException>(error.InnerException).SqliteErrorCode);
        Assert.Equal(0L, _temp.Sql("SELECT count(*) FROM findings"));
    }

    [Fact]
    public void IsFailure_bug_of_ours_is_none()
    {
        using var engine = new SqliteEngine(_temp.Options);

        Assert.False(engine.IsFailure(new InvalidOperationException()));
        Assert.False(engine.IsFailure(new SqliteException("no such column", 1)));
        Assert.False(engine.IsFailure(new DbUpdateException("x", new SqliteException("unique", 19))));
        Assert.True(engine.IsFailure(new DbUpdateException("x", new SqliteException("disk", 10))));
    }

    private static string? Pragma(System.Data.Common.DbConnection connection, string name)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA " + name;
        return command.ExecuteScalar()?.ToString();
    }
}
