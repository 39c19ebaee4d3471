using CoatScan.Findings;
using CoatScan.Storage.Photos;

namespace CoatScan.StorageTests;

public sealed class TenantTests : IDisposable
{
    private static readonly Tenant North = new("north");
    private static readonly Tenant South = new("south");
    private static readonly byte[] Bytes = [1, 2, 3];

    private readonly TempStore _temp = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task Findings_of_another_tenant_are_not_there()
    {
        var store = await _temp.OpenAsync();
        using (_temp.Tenants.Enter(North))
        {
            await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        }

        using (_temp.Tenants.Enter(South))
        {
            Assert.Empty((await store.ListAsync(cancellationToken: Token)).Findings);
            await AssertReasonAsync(ErrorReason.FindingNotFound, () => store.GetAsync("findings/f000001", Token));
            await AssertReasonAsync(ErrorReason.FindingNotFound, () => store.DeleteAsync("findings/f000001", Token));
        }

        using (_temp.Tenants.Enter(North))
        {
            Assert.Single((await store.ListAsync(cancellationToken: Token)).Findings);
        }
    }

    [Fact]
    public async Task Request_ids_of_two_tenants_do_not_meet()
    {
        var store = await _temp.OpenAsync();
        using (_temp.Tenants.Enter(North))
        {
            await store.SaveAsync(TestFindings.Small(1), new RequestKey("one", "hash a"), cancellationToken: Token);
        }

        using (_temp.Tenants.Enter(South))
        {
            Assert.Null(await store.TryReplayAsync(new RequestKey("one", "hash b"), Token));
            var saved = await store.SaveAsync(TestFindings.Small(2), new RequestKey("one", "hash b"), cancellationToken: Token);
            Assert.Equal("findings/f000002", saved.Name);
        }
    }

    [Fact]
    public async Task Photos_of_another_tenant_are_not_there_and_equal_bytes_are_two_files()
    {
        var store = await _temp.OpenPhotosAsync();
        var name = await SaveAsync(store, North);

        using (_temp.Tenants.Enter(South))
        {
            await AssertReasonAsync(ErrorReason.PhotoNotFound, () => store.GetAsync(name, cancellationToken: Token));
            await AssertReasonAsync(ErrorReason.PhotoNotFound, () => store.ReadAsync(name, true, Token));
            await AssertReasonAsync(ErrorReason.PhotoNotFound, () => store.DeleteAsync(name, Token));
        }

        Assert.Equal(name, await SaveAsync(store, South));
        using (_temp.Tenants.Enter(South))
        {
            await store.DeleteAsync(name, Token);
        }

        _temp.Time.Advance(TimeSpan.FromDays(1));
        Assert.Equal(1, (await store.SweepAsync(Token)).Removed);
        using (_temp.Tenants.Enter(North))
        {
            Assert.Equal(Bytes, (await store.ReadAsync(name, cancellationToken: Token)).ToArray());
        }
    }

    [Fact]
    public async Task Housekeeping_goes_through_all_tenants()
    {
        var store = await _temp.OpenAsync();
        foreach (var (tenant, number) in new[] { (North, 1), (South, 2) })
        {
            using (_temp.Tenants.Enter(tenant))
            {
                await store.SaveAsync(TestFindings.Small(number), cancellationToken: Token);
            }
        }

        _temp.Time.Advance(TimeSpan.FromDays(366));

        Assert.Equal(2, await store.PurgeAsync(Token));
        Assert.Equal(0L, _temp.Sql("SELECT count(*) FROM findings"));
    }

    [Fact]
    public async Task Enter_flows_into_tasks_and_ends_with_its_scope()
    {
        using (_temp.Tenants.Enter(North))
        {
            Assert.Equal(North, await Task.Run(() => _temp.Tenants.Current, Token));
            using (_temp.Tenants.Enter(South))
            {
                Assert.Equal(South, _temp.Tenants.Current);
            }

            Assert.Equal(North, _temp.Tenants.Current);
        }

        Assert.Equal(Tenant.Local, _temp.Tenants.Current);
    }

    [Theory]
    [InlineData("")]
    [InlineData("a/b")]
    [InlineData("..")]
    [InlineData("0123456789012345678901234567890123456789012345678901234567890123")]
    public void Tenant_id_that_is_none_throws(string id) => Assert.Throws<ArgumentException>(() => new Tenant(id));

    private static Task AssertReasonAsync(ErrorReason reason, Func<Task> call) =>
        Assert.ThrowsAsync<CoatScanException>(call)
            .ContinueWith(error => Assert.Equal(reason, error.GetAwaiter().GetResult().Reason), TaskScheduler.Default);

    private async Task<string> SaveAsync(PhotoStore store, Tenant tenant)
    {
        using (_temp.Tenants.Enter(tenant))
        {
            return (await store.SaveAsync(new MemoryStream(Bytes), new PhotoDescription("image/png", 1, 1), Token)).Name;
        }
    }
}
