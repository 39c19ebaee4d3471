using CoatScan.Findings;
using CoatScan.Storage;
using Microsoft.Data.Sqlite;

namespace CoatScan.StorageTests;

public sealed class AuditChainTests : IDisposable
{
    private const string DropTriggers = "DROP TRIGGER audit_entries_no_update; DROP TRIGGER audit_entries_no_delete;";

    private readonly TempStore _temp = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task VerifyAuditAsync_empty_log_is_whole()
    {
        var store = await _temp.OpenAsync();

        Assert.Equal(new AuditVerification(0, null, new string('0', 64)), await store.VerifyAuditAsync(Token));
    }

    [Fact]
    public async Task VerifyAuditAsync_one_entry_for_each_create_and_delete()
    {
        var store = await StoreWithLogAsync();

        var verification = await store.VerifyAuditAsync(Token);

        Assert.True(verification.Intact);
        Assert.Equal(4, verification.Entries);
        Assert.Equal(verification.LastHash, _temp.Sql("SELECT hash FROM audit_entries WHERE sequence = 4"));
        Assert.Equal(
            "create findings/f000001 done, create findings/f000002 done, delete findings/f000001 done, "
            + "delete findings/f000001 not_found",
            _temp.Sql(
                "SELECT group_concat(action || ' ' || resource || ' ' || outcome, ', ' ORDER BY sequence) FROM audit_entries"));
        Assert.Equal("2026-03-14T13:00:00.0000000Z", _temp.Sql("SELECT time FROM audit_entries WHERE sequence = 3"));
    }

    [Fact]
    public async Task VerifyAuditAsync_after_a_restart_goes_on_with_the_chain()
    {
        await StoreWithLogAsync();
        _temp.Close();
        var store = await _temp.OpenAsync();

        await store.DeleteAsync("findings/f000002", Token);

        var verification = await store.VerifyAuditAsync(Token);
        Assert.Equal((5L, true), (verification.Entries, verification.Intact));
    }

    [Fact]
    public async Task Entries_say_whose_resource_it_is_and_who_acted()
    {
        var store = await _temp.OpenAsync();
        using (_temp.Tenants.Enter(new Tenant("north"), "key/abc"))
        {
            await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        }

        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);

        Assert.Equal(
            "north key/abc, local service",
            _temp.Sql("SELECT group_concat(tenant || ' ' || actor, ', ' ORDER BY sequence) FROM audit_entries"));
        Assert.True((await store.VerifyAuditAsync(Token)).Intact);
    }

    [Theory]
    [InlineData("UPDATE audit_entries SET outcome = 'not_found' WHERE sequence = 3")]
    [InlineData("DELETE FROM audit_entries WHERE sequence = 4")]
    [InlineData("INSERT OR REPLACE INTO audit_entries (sequence, time, action, resource, outcome, previous_hash, hash) SELECT 3, time, action, resource, 'x', previous_hash, hash FROM audit_entries WHERE sequence = 3")]
    public async Task Database_refuses_to_change_the_log(string sql)
    {
        await StoreWithLogAsync();

        var error = Assert.Throws<SqliteException>(() => _temp.Sql("PRAGMA recursive_triggers = ON; " + sql));

        Assert.Contains("append-only", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("UPDATE audit_entries SET resource = 'findings/f000009' WHERE sequence = 2", 2)]
    [InlineData("UPDATE audit_entries SET time = '2026-03-14T13:00:00.0000001Z' WHERE sequence = 1", 1)]
    [InlineData("UPDATE audit_entries SET action = 'purge' WHERE sequence = 3", 3)]
    [InlineData("UPDATE audit_entries SET outcome = 'done' WHERE sequence = 4", 4)]
    [InlineData("UPDATE audit_entries SET tenant = 'south' WHERE sequence = 2", 2)]
    [InlineData("UPDATE audit_entries SET actor = 'nobody' WHERE sequence = 3", 3)]
    [InlineData("UPDATE audit_entries SET tenant = NULL, actor = NULL WHERE sequence = 3", 3)]
    [InlineData("UPDATE audit_entries SET previous_hash = hash WHERE sequence = 2", 2)]
    [InlineData("UPDATE audit_entries SET hash = previous_hash WHERE sequence = 2", 2)]
    [InlineData("DELETE FROM audit_entries WHERE sequence = 2", 3)]
    [InlineData("DELETE FROM audit_entries WHERE sequence = 1", 2)]
    [InlineData("DELETE FROM audit_entries WHERE sequence = 2; UPDATE audit_entries SET sequence = sequence - 1 WHERE sequence > 2", 2)]
    [InlineData("UPDATE audit_entries SET action = 'createf', resource = 'indings/f000001' WHERE sequence = 1", 1)]
    public async Task VerifyAuditAsync_tampered_log_names_the_first_broken_entry(string sql, int firstBroken)
    {
        var store = await StoreWithLogAsync();
        _temp.Sql(DropTriggers + sql);

        var verification = await store.VerifyAuditAsync(Token);

        Assert.False(verification.Intact);
        Assert.Equal(firstBroken, verification.FirstBroken);
    }

    private async Task<FindingStore> StoreWithLogAsync()
    {
        var store = await _temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);
        await store.DeleteAsync("findings/f000001", Token);
        await Assert.ThrowsAsync<CoatScanException>(() => store.DeleteAsync("findings/f000001", Token));
        return store;
    }
}
