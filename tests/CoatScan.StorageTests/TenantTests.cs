using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage.Photos;

namespace CoatScan.StorageTests;

public abstract class TenantTests(SharedServers? servers) : StoreTest(servers)
{
    private static readonly Tenant North = new("north");
    private static readonly Tenant South = new("south");
    private static readonly byte[] Bytes = [1, 2, 3];

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Findings_of_another_tenant_are_not_there()
    {
        var store = await Temp.OpenAsync();
        using (Temp.Tenants.Enter(North))
        {
            await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        }

        using (Temp.Tenants.Enter(South))
        {
            Assert.Empty((await store.ListAsync(cancellationToken: Token)).Findings);
            await AssertReasonAsync(ErrorReason.FindingNotFound, () => store.GetAsync("findings/f000001", Token));
            await AssertReasonAsync(ErrorReason.FindingNotFound, () => store.DeleteAsync("findings/f000001", Token));
        }

        using (Temp.Tenants.Enter(North))
        {
            Assert.Single((await store.ListAsync(cancellationToken: Token)).Findings);
        }
    }

    [Fact]
    public async Task Request_ids_of_two_tenants_do_not_meet()
    {
        var store = await Temp.OpenAsync();
        using (Temp.Tenants.Enter(North))
        {
            await store.SaveAsync(TestFindings.Small(1), new RequestKey("one", "hash a"), cancellationToken: Token);
        }

        using (Temp.Tenants.Enter(South))
        {
            Assert.Null(await store.TryReplayAsync(new RequestKey("one", "hash b"), Token));
            var saved = await store.SaveAsync(TestFindings.Small(2), new RequestKey("one", "hash b"), cancellationToken: Token);
            Assert.Equal("findings/f000002", saved.Name);
        }
    }

    [Fact]
    public async Task Photos_of_another_tenant_are_not_there_and_equal_bytes_are_two_files()
    {
        var store = await Temp.OpenPhotosAsync();
        var name = await SaveAsync(store, North);

        using (Temp.Tenants.Enter(South))
        {
            await AssertReasonAsync(ErrorReason.PhotoNotFound, () => store.GetAsync(name, cancellationToken: Token));
            await AssertReasonAsync(ErrorReason.PhotoNotFound, () => store.ReadAsync(name, true, Token));
            await AssertReasonAsync(ErrorReason.PhotoNotFound, () => store.DeleteAsync(name, Token));
        }

        Assert.Equal(name, await SaveAsync(store, South));
        using (Temp.Tenants.Enter(South))
        {
            await store.DeleteAsync(name, Token);
        }

        Temp.Time.Advance(TimeSpan.FromDays(1));
        Assert.Equal(1, (await store.SweepAsync(Token)).Removed);
        using (Temp.Tenants.Enter(North))
        {
            Assert.Equal(Bytes, (await store.ReadAsync(name, cancellationToken: Token)).ToArray());
        }
    }

    [Fact]
    public async Task Housekeeping_goes_through_all_tenants()
    {
        var store = await Temp.OpenAsync();
        foreach (var (tenant, number) in new[] { (North, 1), (South, 2) })
        {
            using (Temp.Tenants.Enter(tenant))
            {
                await store.SaveAsync(TestFindings.Small(number), cancellationToken: Token);
            }
        }

        Temp.Time.Advance(TimeSpan.FromDays(366));

        Assert.Equal(2, await store.PurgeAsync(Token));
        Assert.Equal(0L, Temp.Sql("SELECT count(*) FROM findings"));
    }

    [Fact]
    public async Task Enter_flows_into_tasks_and_ends_with_its_scope()
    {
        using (Temp.Tenants.Enter(North))
        {
            Assert.Equal(North, await Task.Run(() => Temp.Tenants.Current, Token));
            using (Temp.Tenants.Enter(South))
            {
                Assert.Equal(South, Temp.Tenants.Current);
            }

            Assert.Equal(North, Temp.Tenants.Current);
        }

        Assert.Equal(Tenant.Local, Temp.Tenants.Current);
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
        using (Temp.Tenants.Enter(tenant))
        {
            return (await store.SaveAsync(new MemoryStream(Bytes), new PhotoDescription("image/png", 1, 1), Token)).Name;
        }
    }
}
