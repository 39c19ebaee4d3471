using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.StorageTests;

public abstract class FindingStoreTests(SharedServers? servers) : StoreTest(servers)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task SaveAsync_finding_is_read_back_equal()
    {
        var store = await Temp.OpenAsync();
        var finding = TestFindings.Full();

        var answer = await store.SaveAsync(finding, cancellationToken: Token);

        Assert.Same(finding, answer);
        Assert.Equivalent(finding, await store.GetAsync(finding.Name, Token), strict: true);
    }

    [Fact]
    public async Task ListOfReferenceAsync_lists_the_newest_of_the_reference_and_the_tenant()
    {
        var store = await Temp.OpenAsync();
        foreach (var number in Enumerable.Range(1, 5))
        {
            await store.SaveAsync(TestFindings.Small(number) with { ExternalRef = number == 3 ? "other" : "claim" }, cancellationToken: Token);
        }

        using (Temp.Tenants.Enter(new Tenant("elsewhere")))
        {
            await store.SaveAsync(TestFindings.Small(9) with { ExternalRef = "claim" }, cancellationToken: Token);
        }

        Assert.Equal(
            ["findings/f000005", "findings/f000004", "findings/f000002"],
            (await store.ListOfReferenceAsync("claim", 3, Token)).Select(one => one.Name));
        Assert.Empty(await store.ListOfReferenceAsync("none", 3, Token));
    }

    [Fact]
    public async Task SaveAsync_fills_the_columns_beside_the_document()
    {
        var store = await Temp.OpenAsync();

        await store.SaveAsync(TestFindings.Full(), cancellationToken: Token);
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);

        Assert.Equal(
            "Provisional|Tür hinten links|claim 0042/7|ring_etch",
            Temp.Sql("SELECT verdict || '|' || panel || '|' || external_ref || '|' || top_condition FROM findings WHERE id = 'full-1'"));
        Assert.Equal(
            TestFindings.Full().CreateTime.UtcTicks,
            Temp.Sql("SELECT create_time_ticks FROM findings WHERE id = 'full-1'"));
        Assert.Equal(DBNull.Value, Temp.Sql("SELECT top_condition FROM findings WHERE id = 'f000001'"));
        Assert.Equal(
            "Provisional",
            Temp.Sql($"SELECT document{(Temp.IsPostgres ? "::json" : "")} ->> 'verdict' FROM findings WHERE id = 'full-1'"));
    }

    [Fact]
    public async Task SaveAsync_name_that_is_stored_throws_and_keeps_the_first()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);

        await Assert.ThrowsAsync<DbUpdateException>(
            () => store.SaveAsync(TestFindings.Small(1) with { Panel = "other" }, cancellationToken: Token));

        Assert.Equal("", (await store.GetAsync("findings/f000001", Token)).Panel);
        Assert.Equal(1, (await store.VerifyAuditAsync(Token)).Entries);
    }

    [Fact]
    public async Task SaveAsync_time_with_an_offset_throws()
    {
        var store = await Temp.OpenAsync();
        var finding = TestFindings.Small(1, TestFindings.Noon.ToOffset(TimeSpan.FromHours(1)));

        await Assert.ThrowsAsync<ArgumentException>(() => store.SaveAsync(finding, cancellationToken: Token));
    }

    [Fact]
    public async Task SaveAsync_cancelled_stores_nothing()
    {
        var store = await Temp.OpenAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(
            () => store.SaveAsync(TestFindings.Small(1), cancellationToken: new CancellationToken(canceled: true)));

        Assert.Equal(0L, Temp.Sql("SELECT count(*) FROM findings"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("findings/")]
    [InlineData("findings/a b")]
    [InlineData("findings/a/b")]
    [InlineData("findings/ä")]
    [InlineData("Findings/a")]
    [InlineData("conditions/a")]
    [InlineData("findings/0123456789012345678901234567890123456789012345678901234567890123")]
    public async Task GetAsync_malformed_name_is_refused(string name)
    {
        var store = await Temp.OpenAsync();

        foreach (var call in new Func<Task>[]
        {
            () => store.GetAsync(name, Token),
            () => store.DeleteAsync(name, Token),
            () => store.SaveAsync(TestFindings.Small(1) with { Name = name }, cancellationToken: Token),
        })
        {
            var error = await Assert.ThrowsAsync<CoatScanException>(call);
            Assert.Equal((ErrorReason.FieldInvalid, "name"), (error.Reason, error.Field));
        }
    }

    [Fact]
    public async Task GetAsync_unknown_name_is_not_found()
    {
        var store = await Temp.OpenAsync();

        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.GetAsync("findings/nobody", Token));

        Assert.Equal((ErrorReason.FindingNotFound, "name"), (error.Reason, error.Field));
        Assert.Equal("findings/nobody", error.Metadata["name"]);
    }

    [Fact]
    public async Task GetAsync_after_a_restart_finds_what_was_stored()
    {
        await OpenAndSaveAsync();
        Temp.Close();

        var store = await Temp.OpenAsync();

        Assert.Equivalent(TestFindings.Full(), await store.GetAsync("findings/full-1", Token), strict: true);
    }

    [Fact]
    public async Task GetAsync_without_dispose_of_the_first_process_finds_what_was_stored()
    {
        await OpenAndSaveAsync();

        var second = await Temp.OpenAsync();

        Assert.Equivalent(TestFindings.Full(), await second.GetAsync("findings/full-1", Token), strict: true);
    }

    [Fact]
    public async Task GetAsync_damaged_document_is_unavailable()
    {
        var store = await OpenAndSaveAsync();
        Temp.Sql("UPDATE findings SET document = '{'");

        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.GetAsync("findings/full-1", Token));

        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
    }

    [Fact]
    public async Task DeleteAsync_finding_is_gone()
    {
        var store = await OpenAndSaveAsync();

        await store.DeleteAsync("findings/full-1", Token);

        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.GetAsync("findings/full-1", Token));
        Assert.Equal(ErrorReason.FindingNotFound, error.Reason);
        Assert.Empty((await store.ListAsync(cancellationToken: Token)).Findings);
    }

    [Fact]
    public async Task DeleteAsync_twice_is_not_found()
    {
        var store = await OpenAndSaveAsync();
        await store.DeleteAsync("findings/full-1", Token);

        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.DeleteAsync("findings/full-1", Token));

        Assert.Equal((ErrorReason.FindingNotFound, "name"), (error.Reason, error.Field));
    }

    [Fact]
    public async Task PurgeAsync_deletes_what_is_older_than_the_retention_and_no_more()
    {
        var store = await Temp.OpenAsync();
        var limit = Temp.Time.GetUtcNow().AddDays(-365);
        const int old = 450; // more than two batches
        for (var i = 0; i < old; i++)
        {
            await store.SaveAsync(TestFindings.Small(i, limit.AddTicks(-1 - i / 2)), cancellationToken: Token);
        }

        await store.SaveAsync(TestFindings.Small(old, limit), cancellationToken: Token);

        Assert.Equal(old, await store.PurgeAsync(Token));
        Assert.Equal(0, await store.PurgeAsync(Token));

        var left = Assert.Single((await store.ListAsync(cancellationToken: Token)).Findings);
        Assert.Equal(limit, left.CreateTime);
        Assert.Equal((long)old, Temp.Sql("SELECT count(*) FROM audit_entries WHERE action = 'purge'"));
        Assert.True((await store.VerifyAuditAsync(Token)).Intact);
    }

    [Fact]
    public async Task CheckAsync_store_that_can_be_written_returns()
    {
        var store = await Temp.OpenAsync();

        await store.CheckAsync(Token);
    }

    [Theory]
    [InlineData(0, 5_000)]
    [InlineData(36_501, 5_000)]
    [InlineData(365, 0)]
    [InlineData(365, 60_001)]
    public void Constructor_option_out_of_range_throws(int retentionDays, int busyTimeoutMs)
    {
        var options = new StorageOptions { Path = "x.db", RetentionDays = retentionDays, BusyTimeoutMs = busyTimeoutMs };

        Assert.Throws<ArgumentOutOfRangeException>(
            () => new FindingStore(new FindingDatabase(options, Temp.Tenants), options, Temp.Time));
    }

    [Fact]
    public void Constructor_empty_path_throws() =>
        Assert.Throws<ArgumentException>(() => new FindingDatabase(new StorageOptions(), Temp.Tenants));

    [Fact]
    public async Task AddFindingStorage_gives_one_store_a_process()
    {
        var services = new ServiceCollection().AddFindingStorage(_ => Temp.Options);
        await using var provider = services.BuildServiceProvider();

        var store = provider.GetRequiredService<FindingStore>();
        await store.MigrateAsync(Token);

        Assert.Same(store, provider.GetRequiredService<FindingStore>());
        Assert.Same(TimeProvider.System, provider.GetRequiredService<TimeProvider>());
    }

    private async Task<FindingStore> OpenAndSaveAsync()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Full(), cancellationToken: Token);
        return store;
    }
}
