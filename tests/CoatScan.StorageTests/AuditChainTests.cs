using System.Data.Common;
using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage;

namespace CoatScan.StorageTests;

public abstract class AuditChainTests(SharedServers? servers) : StoreTest(servers)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task VerifyAuditAsync_empty_log_is_whole()
    {
        var store = await Temp.OpenAsync();

        Assert.Equal(new AuditVerification(0, null, new string('0', 64)), await store.VerifyAuditAsync(Token));
    }

    [Fact]
    public async Task VerifyAuditAsync_one_entry_for_each_create_and_delete()
    {
        var store = await StoreWithLogAsync();

        var verification = await store.VerifyAuditAsync(Token);

        Assert.True(verification.Intact);
        Assert.Equal(4, verification.Entries);
        Assert.Equal(verification.LastHash, Temp.Sql("SELECT hash FROM audit_entries WHERE sequence = 4"));
        Assert.Equal(
            "create findings/f000001 done, create findings/f000002 done, delete findings/f000001 done, "
            + "delete findings/f000001 not_found",
            Temp.Sql(
                "SELECT string_agg(action || ' ' || resource || ' ' || outcome, ', ' ORDER BY sequence) FROM audit_entries"));
        Assert.Equal("2026-03-14T13:00:00.0000000Z", Temp.Sql("SELECT time FROM audit_entries WHERE sequence = 3"));
    }

    [Fact]
    public async Task VerifyAuditAsync_after_a_restart_goes_on_with_the_chain()
    {
        await StoreWithLogAsync();
        Temp.Close();
        var store = await Temp.OpenAsync();

        await store.DeleteAsync("findings/f000002", Token);

        var verification = await store.VerifyAuditAsync(Token);
        Assert.Equal((5L, true), (verification.Entries, verification.Intact));
    }

    [Fact]
    public async Task Entries_say_whose_resource_it_is_and_who_acted()
    {
        var store = await Temp.OpenAsync();
        using (Temp.Tenants.Enter(new Tenant("north"), "key/abc"))
        {
            await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        }

        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);

        Assert.Equal(
            "north key/abc, local service",
            Temp.Sql("SELECT string_agg(tenant || ' ' || actor, ', ' ORDER BY sequence) FROM audit_entries"));
        Assert.True((await store.VerifyAuditAsync(Token)).Intact);
    }

    [Theory]
    [InlineData("UPDATE audit_entries SET outcome = 'not_found' WHERE sequence = 3")]
    [InlineData("DELETE FROM audit_entries WHERE sequence = 4")]
    public async Task Database_refuses_to_change_the_log(string sql)
    {
        await StoreWithLogAsync();

        var error = Assert.ThrowsAny<DbException>(() => Temp.Sql(sql));

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
        Temp.Sql(Temp.DropAuditGuard + sql);

        var verification = await store.VerifyAuditAsync(Token);

        Assert.False(verification.Intact);
        Assert.Equal(firstBroken, verification.FirstBroken);
    }

    private async Task<FindingStore> StoreWithLogAsync()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        await store.SaveAsync(TestFindings.Small(2), cancellationToken: Token);
        await store.DeleteAsync("findings/f000001", Token);
        await Assert.ThrowsAsync<CoatScanException>(() => store.DeleteAsync("findings/f000001", Token));
        return store;
    }
}
