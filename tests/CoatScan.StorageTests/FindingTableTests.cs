using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage;

namespace CoatScan.StorageTests;

public abstract class FindingTableTests(SharedServers? servers) : StoreTest(servers)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task ListAsync_empty_store_gives_an_empty_last_page()
    {
        var store = await Temp.OpenAsync();

        var page = await store.ListAsync(cancellationToken: Token);

        Assert.Empty(page.Findings);
        Assert.Equal("", page.NextPageToken);
    }

    [Fact]
    public async Task ListAsync_newest_first_and_by_id_within_one_time()
    {
        var store = await Temp.OpenAsync();
        foreach (var number in new[] { 2, 5, 1, 4, 3 })
        {
            // 1 and 2 share a time, 3 and 4 too.
            await store.SaveAsync(
                TestFindings.Small(number, TestFindings.Noon.AddTicks((number - 1) / 2)), cancellationToken: Token);
        }

        var names = await WalkAsync(store, pageSize: 2);

        Assert.Equal(["f000005", "f000004", "f000003", "f000002", "f000001"], names);
    }

    [Fact]
    public async Task ListAsync_page_size_is_defaulted_and_lowered()
    {
        var store = await StoreOfAsync(501);

        foreach (var (pageSize, expected) in new[] { (0, 50), (1, 1), (500, 500), (501, 500), (int.MaxValue, 500) })
        {
            var page = await store.ListAsync(pageSize, cancellationToken: Token);
            Assert.Equal(expected, page.Findings.Count);
            Assert.NotEqual("", page.NextPageToken);
        }
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(int.MinValue)]
    public async Task ListAsync_negative_page_size_is_refused(int pageSize)
    {
        var store = await Temp.OpenAsync();

        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.ListAsync(pageSize, cancellationToken: Token));

        Assert.Equal((ErrorReason.ValueOutOfRange, "page_size"), (error.Reason, error.Field));
        Assert.Equal("500", error.Metadata["max"]);
    }

    [Fact]
    public async Task ListAsync_made_up_token_is_refused()
    {
        var store = await Temp.OpenAsync();

        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.ListAsync(1, "abc", Token));

        Assert.Equal((ErrorReason.FieldInvalid, "page_token"), (error.Reason, error.Field));
    }

    [Fact]
    public async Task ListAsync_token_expires_by_the_given_clock()
    {
        var store = await StoreOfAsync(3);
        var token = (await store.ListAsync(1, cancellationToken: Token)).NextPageToken;

        Temp.Time.Advance(TimeSpan.FromDays(3));
        Assert.Single((await store.ListAsync(1, token, Token)).Findings);

        Temp.Time.Advance(TimeSpan.FromTicks(1));
        var error = await Assert.ThrowsAsync<CoatScanException>(() => store.ListAsync(1, token, Token));
        Assert.Equal((ErrorReason.FieldInvalid, "page_token"), (error.Reason, error.Field));
    }

    [Fact]
    public async Task ListAsync_last_page_that_is_just_full_has_no_next()
    {
        var store = await StoreOfAsync(4);

        var first = await store.ListAsync(2, cancellationToken: Token);
        var second = await store.ListAsync(2, first.NextPageToken, Token);

        Assert.Equal(2, second.Findings.Count);
        Assert.Equal("", second.NextPageToken);
    }

    [Fact]
    public async Task ListAsync_token_whose_finding_was_deleted_goes_on_behind_it()
    {
        var store = await StoreOfAsync(4);
        var first = await store.ListAsync(2, cancellationToken: Token);
        await store.DeleteAsync(first.Findings[^1].Name, Token);

        var second = await store.ListAsync(2, first.NextPageToken, Token);

        Assert.Equal(["findings/f000001", "findings/f000000"], second.Findings.Select(finding => finding.Name));
    }

    [Fact]
    public async Task ListAsync_visits_every_finding_once_while_others_insert()
    {
        const int before = 150;
        var store = await StoreOfAsync(before);
        using var stop = new CancellationTokenSource();
        var isInserting = new TaskCompletionSource();

        // New findings come at the new end, and some with an older time right among those being walked over.
        var inserting = Task.Run(
            async () =>
            {
                for (var number = before; !stop.IsCancellationRequested; number++)
                {
                    var time = number % 2 == 0 ? TestFindings.Noon.AddDays(1) : TestFindings.Noon.AddSeconds(number % before);
                    await store.SaveAsync(TestFindings.Small(number, time), cancellationToken: Token);
                    isInserting.TrySetResult();
                }
            },
            Token);
        await isInserting.Task;
        var names = await WalkAsync(store, pageSize: 7);
        await stop.CancelAsync();
        await inserting;

        Assert.Equal(names.Count, names.Distinct().Count());
        var old = names.Where(name => string.CompareOrdinal(name, "f000150") < 0);
        Assert.Equal(before, old.Count());
    }

    private async Task<FindingStore> StoreOfAsync(int count)
    {
        var store = await Temp.OpenAsync();
        for (var number = 0; number < count; number++)
        {
            await store.SaveAsync(TestFindings.Small(number), cancellationToken: Token);
        }

        return store;
    }

    private static async Task<List<string>> WalkAsync(FindingStore store, int pageSize)
    {
        var names = new List<string>();
        var pageToken = "";
        do
        {
            var page = await store.ListAsync(pageSize, pageToken, Token);
            names.AddRange(page.Findings.Select(finding => finding.Name["findings/".Length..]));
            pageToken = page.NextPageToken;
        }
        while (pageToken.Length > 0);

        return names;
    }
}
