using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage;
using CoatScan.Storage.Engines;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace CoatScan.StorageTests;

/// <summary>A file or a database that an older version of this program wrote.</summary>
public sealed class UpgradeTests(SharedServers servers) : IDisposable
{
    private const string FirstVersion = "20261125131315_Initial";

    // Its hash was computed apart from this program: SHA-256 over the sequence (64 bits, big-endian) and each text behind its
    // length in bytes (the same).
    private const string OldAuditEntry =
        """
        INSERT INTO audit_entries (sequence, time, action, resource, outcome, previous_hash, hash)
        VALUES (1, '2026-11-28T09:00:00.0000000Z', 'create', 'findings/f000001', 'done',
            '0000000000000000000000000000000000000000000000000000000000000000',
            '87fb7e42b51cd3331b2926883fa8688486cabcb057f4acbf5f26a3192ebd9954');
        """;

    private const string OldItem =
        """
        INSERT INTO batch_items (tenant, batch, item_key, position, vehicle_ref, panel, given, state, attempt, lost_count, due_ticks,
            lease_until_ticks, lease_ticks, worker, fence, finding_id, error, summary, severity)
        VALUES ('local', 'lots', 'hood', 0, '', '', '{}', 1, 1, 0, 0, 5, 6, 'running', 7, NULL, NULL, NULL, NULL);
        """;

    private const string ItemKept = "SELECT item_key || ' ' || fence || ' ' || attempt || ' ' || worker FROM batch_items";

    private readonly TempStore _temp = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task MigrateAsync_file_of_the_first_version_keeps_findings_requests_and_audit()
    {
        var finding = TestFindings.Small(1);
        WriteFirstVersion(FindingDocument.Write(finding), finding.CreateTime.UtcTicks);

        var store = await _temp.OpenAsync();

        Assert.Equivalent(finding, await store.GetAsync(finding.Name, Token), strict: true);
        Assert.Equal(finding.Name, Assert.Single((await store.ListAsync(cancellationToken: Token)).Findings).Name);
        Assert.Equal(finding.Name, (await store.TryReplayAsync(new RequestKey("request", "hash"), Token))!.Name);
        Assert.Null(await store.GetInputsAsync(finding.Name, Token));
        Assert.Equal("local local", _temp.Sql("SELECT findings.tenant || ' ' || request_keys.tenant FROM findings, request_keys"));

        // And it is written to as one of today.
        await store.SaveAsync(TestFindings.Small(2), new RequestKey("another", "hash"), cancellationToken: Token);
        await store.DeleteAsync(finding.Name, Token);
        Assert.True((await store.VerifyAuditAsync(Token)).Intact);
        Assert.Equal(
            "audit_entries_no_delete,audit_entries_no_update",
            _temp.Sql("SELECT group_concat(name, ',' ORDER BY name) FROM sqlite_master WHERE type = 'trigger'"));
    }

    [Fact]
    public async Task MigrateAsync_file_of_the_version_before_keeps_its_audit_chain_and_goes_on_with_it()
    {
        WriteVersion("20261128022444_Batches", OldAuditEntry);

        var store = await _temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);

        var verification = await store.VerifyAuditAsync(Token);
        Assert.Equal((2L, true), (verification.Entries, verification.Intact));
        Assert.Equal(DBNull.Value, _temp.Sql("SELECT tenant FROM audit_entries WHERE sequence = 1"));
        Assert.Equal("local", _temp.Sql("SELECT tenant FROM audit_entries WHERE sequence = 2"));
    }

    [Fact]
    public async Task MigrateAsync_file_of_the_version_before_announcements_announces_nothing_of_before()
    {
        WriteVersion(
            "20261130041634_FindingsByReference",
            """
            INSERT INTO batches (tenant, id, display_name, state, item_count, graded_count, failed_count, cancelled_count,
                create_time_ticks, finish_time_ticks, last_sequence, version, last_claim_ticks)
            VALUES ('local', 'lots', '', 2, 3, 3, 0, 0, 1, 2, 4, 9, 1);
            """);

        await _temp.OpenAsync();

        Assert.Equal(4L, _temp.Sql("SELECT announced_sequence FROM batches"));
    }

    [Fact]
    public async Task MigrateAsync_file_of_the_version_before_keeps_the_items_of_its_batches()
    {
        WriteVersion("20261130071803_Announcements", OldItem);

        await _temp.OpenAsync();

        Assert.Equal("hood 7 1 running", _temp.Sql(ItemKept));
        Assert.Equal(0L, _temp.Sql("SELECT count(*) FROM pragma_table_info('batch_items') WHERE name = 'lease_ticks'"));
        Assert.Equal(
            "batch_items_by_lease,batch_items_by_position,batch_items_by_state,batch_items_by_vehicle",
            _temp.Sql("SELECT group_concat(name, ',' ORDER BY name) FROM sqlite_master WHERE tbl_name = 'batch_items' AND sql NOT NULL AND type = 'index'"));
    }

    [Fact]
    public async Task MigrateAsync_database_of_the_version_before_keeps_the_items_of_its_batches()
    {
        var connection = await (await servers.PostgresAsync()).NewDatabaseAsync();
        await using (var context = new PostgresContextFactory().CreateDbContext([]))
        {
            await PostgresServer.ExecuteAsync(
                connection,
                context.GetService<IHistoryRepository>().GetCreateIfNotExistsScript() +
                context.GetService<IMigrator>().GenerateScript(Migration.InitialDatabase, "20261130071809_Initial") +
                OldItem);
        }

        using var temp = new TempStore(postgresConnection: connection);
        await temp.OpenAsync();

        Assert.Equal("hood 7 1 running", temp.Sql(ItemKept));
        Assert.Equal(0L, temp.Sql("SELECT count(*) FROM information_schema.columns WHERE table_name = 'batch_items' AND column_name = 'lease_ticks'"));
    }

    private void WriteVersion(string version, string sql)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(_temp.Options.Path)!);
        using var context = new FindingContextFactory().CreateDbContext([]);
        using var connection = _temp.OpenConnection();
        using var command = connection.CreateCommand();
        command.CommandText =
            context.GetService<IHistoryRepository>().GetCreateIfNotExistsScript() +
            context.GetService<IMigrator>().GenerateScript(Migration.InitialDatabase, version) +
            sql;
        command.ExecuteNonQuery();
    }

    private void WriteFirstVersion(string document, long ticks)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(_temp.Options.Path)!);
        using var context = new FindingContextFactory().CreateDbContext([]);
        using var connection = _temp.OpenConnection();
        using var command = connection.CreateCommand();
        command.CommandText =
            context.GetService<IHistoryRepository>().GetCreateIfNotExistsScript() +
            context.GetService<IMigrator>().GenerateScript(Migration.InitialDatabase, FirstVersion);
        command.ExecuteNonQuery();

        command.CommandText =
            """
            INSERT INTO findings (id, create_time_ticks, verdict, panel, external_ref, document)
            VALUES ('f000001', $ticks, 'Sound', '', '', $document);
            INSERT INTO request_keys (request_id, request_hash, finding_id, create_time_ticks)
            VALUES ('request', 'hash', 'f000001', $ticks);
            """;
        command.Parameters.AddWithValue("$ticks", ticks);
        command.Parameters.AddWithValue("$document", document);
        command.ExecuteNonQuery();
    }
}
