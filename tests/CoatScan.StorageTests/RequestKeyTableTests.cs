using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage;

namespace CoatScan.StorageTests;

public abstract class RequestKeyTableTests(SharedServers? servers) : StoreTest(servers)
{
    private static readonly RequestKey Key = new("6f1c2f7e-0000-4000-8000-000000000001", "hash-a");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task SaveAsync_same_request_again_gives_the_first_finding()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Full(), Key, cancellationToken: Token);

        var answer = await store.SaveAsync(TestFindings.Small(2), Key, cancellationToken: Token);

        Assert.Equivalent(TestFindings.Full(), answer, strict: true);
        Assert.Equal(1L, Temp.Sql("SELECT count(*) FROM findings"));
        Assert.Equal(1, (await store.VerifyAuditAsync(Token)).Entries);
    }

    [Fact]
    public async Task SaveAsync_same_id_for_another_request_is_refused()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), Key, cancellationToken: Token);
        var other = Key with { RequestHash = "hash-b" };

        foreach (var call in new Func<Task>[]
        {
            () => store.SaveAsync(TestFindings.Small(2), other, cancellationToken: Token),
            () => store.TryReplayAsync(other, Token),
        })
        {
            var error = await Assert.ThrowsAsync<CoatScanException>(call);
            Assert.Equal((ErrorReason.RequestIdReused, "request_id"), (error.Reason, error.Field));
            Assert.Equal("24", error.Metadata["window_hours"]);
        }

        Assert.Equal(1L, Temp.Sql("SELECT count(*) FROM findings"));
    }

    [Fact]
    public async Task SaveAsync_other_id_for_the_same_request_gives_another_finding()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), Key, cancellationToken: Token);

        var answer = await store.SaveAsync(TestFindings.Small(2), Key with { RequestId = "other" }, cancellationToken: Token);

        Assert.Equal("findings/f000002", answer.Name);
    }

    [Fact]
    public async Task SaveAsync_twenty_duplicates_at_once_store_one_and_answer_alike()
    {
        // Two stores on one file: two processes, which only the unique key can tell apart.
        var stores = new[] { await Temp.OpenAsync(), await Temp.OpenAsync() };

        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(number => Task.Run(
            () => stores[number % 2].SaveAsync(
                TestFindings.Full() with { Name = $"findings/copy-{number}" }, Key, cancellationToken: Token),
            Token)));

        Assert.Equal(1L, Temp.Sql("SELECT count(*) FROM findings"));
        Assert.Equal(1L, Temp.Sql("SELECT count(*) FROM request_keys"));
        Assert.Single(answers.Select(FindingDocument.Write).Distinct());
    }

    [Fact]
    public async Task SaveAsync_that_fails_leaves_the_request_id_free()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        await Assert.ThrowsAnyAsync<Exception>(() => store.SaveAsync(TestFindings.Small(1), Key, cancellationToken: Token));

        Assert.Null(await store.TryReplayAsync(Key, Token));
        Assert.Equal("findings/f000002", (await store.SaveAsync(TestFindings.Small(2), Key, cancellationToken: Token)).Name);
    }

    [Fact]
    public async Task TryReplayAsync_new_request_gives_null()
    {
        var store = await Temp.OpenAsync();

        Assert.Null(await store.TryReplayAsync(Key, Token));
    }

    [Fact]
    public async Task TryReplayAsync_known_request_gives_its_finding()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Full(), Key, cancellationToken: Token);

        Assert.Equivalent(TestFindings.Full(), await store.TryReplayAsync(Key, Token), strict: true);
    }

    [Fact]
    public async Task TryReplayAsync_after_24_hours_has_forgotten()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), Key, cancellationToken: Token);

        Temp.Time.Advance(TimeSpan.FromHours(24));
        Assert.NotNull(await store.TryReplayAsync(Key, Token));

        Temp.Time.Advance(TimeSpan.FromTicks(1));
        Assert.Null(await store.TryReplayAsync(Key, Token));
        var other = Key with { RequestHash = "hash-b" };
        Assert.Equal("findings/f000002", (await store.SaveAsync(TestFindings.Small(2), other, cancellationToken: Token)).Name);
        Assert.Equal(2L, Temp.Sql("SELECT count(*) FROM findings"));
    }

    [Fact]
    public async Task TryReplayAsync_finding_that_was_deleted_gives_null()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), Key, cancellationToken: Token);
        await store.DeleteAsync("findings/f000001", Token);

        Assert.Null(await store.TryReplayAsync(Key, Token));
        Assert.Equal("findings/f000002", (await store.SaveAsync(TestFindings.Small(2), Key, cancellationToken: Token)).Name);
    }

    [Fact]
    public async Task PurgeAsync_forgets_old_request_ids()
    {
        var store = await Temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), Key, cancellationToken: Token);
        Temp.Time.Advance(TimeSpan.FromHours(25));

        Assert.Equal(0, await store.PurgeAsync(Token));

        Assert.Equal(0L, Temp.Sql("SELECT count(*) FROM request_keys"));
        Assert.Equal(1L, Temp.Sql("SELECT count(*) FROM findings"));
    }

    [Theory]
    [InlineData("", "h")]
    [InlineData("id", "")]
    [InlineData("LONG", "h")]
    [InlineData("id", "LONG")]
    public async Task SaveAsync_key_out_of_bounds_throws(string requestId, string requestHash)
    {
        var store = await Temp.OpenAsync();
        var key = new RequestKey(
            requestId.Replace("LONG", new string('x', 129), StringComparison.Ordinal),
            requestHash.Replace("LONG", new string('x', 129), StringComparison.Ordinal));

        await Assert.ThrowsAnyAsync<ArgumentException>(() => store.SaveAsync(TestFindings.Small(1), key, cancellationToken: Token));
        await Assert.ThrowsAnyAsync<ArgumentException>(() => store.TryReplayAsync(key, Token));
    }
}
