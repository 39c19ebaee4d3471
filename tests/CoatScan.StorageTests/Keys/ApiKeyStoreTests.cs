using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage.Keys;

namespace CoatScan.StorageTests.Keys;

public abstract class ApiKeyStoreTests(SharedServers? servers) : StoreTest(servers)
{
    private static readonly Tenant North = new("north");
    private static readonly Tenant South = new("south");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task CheckAsync_key_opens_its_tenant_with_its_scope()
    {
        var keys = await OpenAsync();

        var made = await keys.CreateAsync(North, AccessScope.Write, "scanner", null, Token);
        var found = await keys.CheckAsync(made.Text, Token);

        Assert.Equal(made.Key, found);
        Assert.Equal((North, AccessScope.Write, "scanner"), (found!.Tenant, found.Scope, found.DisplayName));
        Assert.StartsWith($"coatscan_{made.Key.Id}_", made.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CreateAsync_secret_is_in_no_file_of_the_store()
    {
        var keys = await OpenAsync();
        var made = await keys.CreateAsync(North, AccessScope.Read, "", null, Token);
        var secret = made.Text.Split('_', 3)[2];

        Assert.Equal(43, secret.Length);
        foreach (var file in Directory.GetFiles(Temp.Folder, "*", SearchOption.AllDirectories))
        {
            await using var content = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            var bytes = new MemoryStream();
            await content.CopyToAsync(bytes, Token);
            Assert.Equal(-1, bytes.ToArray().AsSpan().IndexOf(System.Text.Encoding.ASCII.GetBytes(secret)));
        }
    }

    [Fact]
    public async Task CheckAsync_anything_but_the_whole_key_is_none()
    {
        var keys = await OpenAsync();
        var text = (await keys.CreateAsync(North, AccessScope.Read, "", null, Token)).Text;
        var other = (await keys.CreateAsync(South, AccessScope.Admin, "", null, Token)).Text;
        var split = "coatscan_".Length + ApiKeySecret.IdLength;

        string[] wrong =
        [
            "", "coatscan_", text[..^1], text + "A", text.ToUpperInvariant(), text[..split], text[..(split + 1)],
            text[..split] + other[split..], "x" + text,
        ];
        foreach (var one in wrong)
        {
            Assert.Null(await keys.CheckAsync(one, Token));
        }
    }

    [Fact]
    public async Task CheckAsync_expired_key_is_none_from_its_end_on()
    {
        var keys = await OpenAsync();
        var made = await keys.CreateAsync(North, AccessScope.Read, "", TimeSpan.FromDays(1), Token);

        Temp.Time.Advance(TimeSpan.FromDays(1) - TimeSpan.FromTicks(1));
        Assert.NotNull(await keys.CheckAsync(made.Text, Token));
        Temp.Time.Advance(TimeSpan.FromTicks(1));
        Assert.Null(await keys.CheckAsync(made.Text, Token));
    }

    [Fact]
    public async Task RevokeAsync_key_does_not_hold_any_more()
    {
        var keys = await OpenAsync();
        var made = await keys.CreateAsync(North, AccessScope.Read, "", null, Token);

        await keys.RevokeAsync(made.Key.Id, Token);

        Assert.Null(await keys.CheckAsync(made.Text, Token));
        Assert.NotNull(Assert.Single(await keys.ListAsync(North, Token)).RevokeTime);
    }

    [Fact]
    public async Task RotateAsync_both_keys_hold_during_the_overlap_and_then_the_new_one_alone()
    {
        var keys = await OpenAsync();
        var old = await keys.CreateAsync(North, AccessScope.Admin, "gate", null, Token);

        var fresh = await keys.RotateAsync(old.Key.Id, TimeSpan.FromHours(24), TimeSpan.FromDays(90), Token);

        Assert.Equal((North, AccessScope.Admin, "gate"), (fresh.Key.Tenant, fresh.Key.Scope, fresh.Key.DisplayName));
        Assert.NotNull(await keys.CheckAsync(old.Text, Token));
        Assert.NotNull(await keys.CheckAsync(fresh.Text, Token));
        Temp.Time.Advance(TimeSpan.FromHours(24));
        Assert.Null(await keys.CheckAsync(old.Text, Token));
        Assert.NotNull(await keys.CheckAsync(fresh.Text, Token));
        await AssertNotFoundAsync(() => keys.RotateAsync(old.Key.Id, TimeSpan.Zero, null, Token));
    }

    [Fact]
    public async Task RotateAsync_never_lengthens_the_life_of_the_old_key()
    {
        var keys = await OpenAsync();
        var old = await keys.CreateAsync(North, AccessScope.Read, "", TimeSpan.FromHours(1), Token);

        await keys.RotateAsync(old.Key.Id, TimeSpan.FromDays(7), null, Token);

        Temp.Time.Advance(TimeSpan.FromHours(1));
        Assert.Null(await keys.CheckAsync(old.Text, Token));
    }

    [Fact]
    public async Task ListAsync_shows_the_keys_of_one_tenant_or_of_all()
    {
        var keys = await OpenAsync();
        var first = await keys.CreateAsync(North, AccessScope.Read, "", null, Token);
        Temp.Time.Advance(TimeSpan.FromSeconds(1));
        var second = await keys.CreateAsync(South, AccessScope.Read, "", null, Token);

        Assert.Equal([first.Key, second.Key], await keys.ListAsync(null, Token));
        Assert.Equal([second.Key], await keys.ListAsync(South, Token));
    }

    [Fact]
    public async Task Unknown_key_is_not_found()
    {
        var keys = await OpenAsync();

        await AssertNotFoundAsync(() => keys.RevokeAsync("nobody", Token));
        await AssertNotFoundAsync(() => keys.RotateAsync("nobody", TimeSpan.Zero, null, Token));
    }

    [Fact]
    public async Task Changes_are_in_the_audit_log_of_the_tenant()
    {
        var keys = await OpenAsync();
        var old = await keys.CreateAsync(North, AccessScope.Read, "", null, Token);
        var fresh = await keys.RotateAsync(old.Key.Id, TimeSpan.Zero, null, Token);
        await keys.RevokeAsync(fresh.Key.Id, Token);

        Assert.Equal(
            $"north create {old.Key.Name}, north change {old.Key.Name}, north create {fresh.Key.Name}, north delete {fresh.Key.Name}",
            Temp.Sql(
                "SELECT string_agg(tenant || ' ' || action || ' ' || resource, ', ' ORDER BY sequence) FROM audit_entries"));
        Assert.True((await (await Temp.OpenAsync()).VerifyAuditAsync(Token)).Intact);
    }

    private static async Task AssertNotFoundAsync(Func<Task> call) =>
        Assert.Equal(ErrorReason.KeyNotFound, (await Assert.ThrowsAsync<CoatScanException>(call)).Reason);

    private async Task<ApiKeyStore> OpenAsync()
    {
        await Temp.OpenAsync();
        return new ApiKeyStore(Temp.OpenDatabase(), Temp.Time);
    }
}
