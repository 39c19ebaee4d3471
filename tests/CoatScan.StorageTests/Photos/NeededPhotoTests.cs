using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage.Ledger;
using CoatScan.Storage.Photos;

namespace CoatScan.StorageTests.Photos;

/// <summary>Bytes of a deleted photo stay as long as an item of a batch waits for them, and no longer.</summary>
public abstract class NeededPhotoTests(SharedServers? servers) : StoreTest(servers)
{
    private static readonly Tenant North = new("north");
    private static readonly Tenant South = new("south");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task SweepAsync_keeps_the_bytes_that_a_waiting_item_needs()
    {
        var (photos, ledger) = await OpenAsync();
        var needed = await SaveAsync(photos, 1);
        var free = await SaveAsync(photos, 2);
        await AddItemAsync(ledger, needed);
        await photos.DeleteAsync(needed, Token);
        await photos.DeleteAsync(free, Token);

        Temp.Time.Advance(TimeSpan.FromDays(3));

        Assert.Equal(1, (await photos.SweepAsync(Token)).Removed);
        Assert.Equal([1], (await photos.ReadAsync(needed, evenIfMarked: true, Token)).ToArray());
    }

    [Theory]
    [InlineData(ItemState.Queued, 0)]
    [InlineData(ItemState.Running, 0)]
    [InlineData(ItemState.Graded, 1)]
    [InlineData(ItemState.Failed, 1)]
    [InlineData(ItemState.Cancelled, 1)]
    public async Task SweepAsync_removes_what_only_items_at_rest_name(ItemState state, int removed)
    {
        var (photos, ledger) = await OpenAsync();
        var photo = await SaveAsync(photos, 1);
        await AddItemAsync(ledger, photo);
        Temp.Sql($"UPDATE batch_items SET state = {(int)state}");
        await photos.DeleteAsync(photo, Token);

        Temp.Time.Advance(PhotoStore.RemovalDelay);

        Assert.Equal(removed, (await photos.SweepAsync(Token)).Removed);
    }

    [Fact]
    public async Task SweepAsync_item_of_another_tenant_keeps_nothing()
    {
        var (photos, ledger) = await OpenAsync();
        string photo;
        using (Temp.Tenants.Enter(North))
        {
            photo = await SaveAsync(photos, 1);
            await photos.DeleteAsync(photo, Token);
        }

        using (Temp.Tenants.Enter(South))
        {
            await AddItemAsync(ledger, photo);
        }

        Temp.Time.Advance(PhotoStore.RemovalDelay);

        Assert.Equal(1, (await photos.SweepAsync(Token)).Removed);
        Assert.Equal("north", Temp.Sql("SELECT tenant FROM audit_entries WHERE action = 'purge'"));
    }

    [Theory]
    [InlineData(2L, null, "photos", "3", "2")]
    [InlineData(null, 5L, "photo_bytes", "6", "5")]
    public async Task KeepAsync_over_the_allowance_is_refused_and_leaves_nothing(
        long? maxPhotos, long? maxBytes, string quota, string value, string limit)
    {
        var (photos, _) = await OpenAsync();
        var allowance = new PhotoAllowance(maxPhotos, maxBytes);
        await KeepAsync(photos, [1, 1], allowance);
        var second = await KeepAsync(photos, [2, 2], allowance);
        var filesBefore = Files();

        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => KeepAsync(photos, [3, 3], allowance));

        Assert.Equal(ErrorReason.QuotaExceeded, refusal.Reason);
        Assert.Equal((quota, value, limit), (refusal.Metadata["quota"], refusal.Metadata["value"], refusal.Metadata["limit"]));
        Assert.Equal(filesBefore, Files());

        // Bytes that are there already take no further room; another tenant has its own.
        Assert.Equal(second.Name, (await KeepAsync(photos, [2, 2], allowance)).Name);
        using (Temp.Tenants.Enter(South))
        {
            await KeepAsync(photos, [3, 3], allowance);
        }

        // A deleted photo counts until its bytes are gone.
        await photos.DeleteAsync(second.Name, Token);
        await Assert.ThrowsAsync<CoatScanException>(() => KeepAsync(photos, [3, 3], allowance));
        Temp.Time.Advance(PhotoStore.RemovalDelay);
        await photos.SweepAsync(Token);
        await KeepAsync(photos, [3, 3], allowance);
    }

    private int Files() => Directory.GetFiles(Path.Combine(Temp.Folder, "data", "photos"), "*", SearchOption.AllDirectories).Length;

    private async Task<(PhotoStore Photos, BatchLedger Ledger)> OpenAsync()
    {
        var photos = await Temp.OpenPhotosAsync();
        return (photos, new BatchLedger(Temp.OpenDatabase(), Temp.Time));
    }

    private static async Task<string> SaveAsync(PhotoStore photos, byte content) =>
        (await photos.SaveAsync(new MemoryStream([content]), new PhotoDescription("image/png", 1, 1), Token)).Name;

    private static async Task<StoredPhoto> KeepAsync(PhotoStore photos, byte[] content, PhotoAllowance allowance)
    {
        await using var draft = photos.Begin();
        await draft.WriteAsync(content, Token);
        return await photos.KeepAsync(draft, new PhotoDescription("image/png", 1, 1), allowance, Token);
    }

    private static async Task AddItemAsync(BatchLedger ledger, string photo)
    {
        var batch = await ledger.CreateAsync("lot", "", null, Token);
        await ledger.AddItemsAsync(batch.Id, [new NewItem("one", "car", [$"photos/{new string('f', 64)}", photo], new PanelFacts())], Token);
    }
}
