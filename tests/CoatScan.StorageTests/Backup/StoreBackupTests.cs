using CoatScan.Findings;
using CoatScan.Storage.Backup;
using CoatScan.Storage.Photos;

namespace CoatScan.StorageTests.Backup;

public sealed class StoreBackupTests : IDisposable
{
    private readonly TempStore _temp = new();
    private readonly TempStore _other = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Copy => Path.Combine(_temp.Folder, "copy");

    public void Dispose()
    {
        _temp.Dispose();
        _other.Dispose();
    }

    [Fact]
    public async Task Restore_gives_back_findings_photos_of_every_tenant_and_the_audit_log()
    {
        var findings = await _temp.OpenAsync();
        await findings.SaveAsync(TestFindings.Full(), cancellationToken: Token);
        var photos = await _temp.OpenPhotosAsync();
        var local = await SaveAsync(photos, 1);
        StoredPhoto north;
        using (_temp.Tenants.Enter(new Tenant("north")))
        {
            north = await SaveAsync(photos, 2);
        }

        var deleted = await SaveAsync(photos, 3);
        await photos.DeleteAsync(deleted.Name, Token);

        var written = StoreBackup.Write(_temp.Options, Copy, Token);
        var restored = StoreBackup.Restore(Copy, _other.Options, Token);

        Assert.Equal((1, 3, 0), (written.FindingCount, written.PhotoCount, written.DamagedPhotos.Count));
        Assert.Equivalent(written, restored, strict: true);
        var again = await _other.OpenAsync();
        var photosAgain = await _other.OpenPhotosAsync();
        Assert.Equivalent(TestFindings.Full(), await again.GetAsync("findings/full-1", Token), strict: true);
        Assert.Equal(BytesOf(1), (await photosAgain.ReadAsync(local.Name, cancellationToken: Token)).ToArray());
        Assert.Equal(BytesOf(3), (await photosAgain.ReadAsync(deleted.Name, evenIfMarked: true, Token)).ToArray());
        using (_other.Tenants.Enter(new Tenant("north")))
        {
            Assert.Equal(BytesOf(2), (await photosAgain.ReadAsync(north.Name, cancellationToken: Token)).ToArray());
        }

        Assert.Equal((5, true), ((await again.VerifyAuditAsync(Token)).Entries, (await again.VerifyAuditAsync(Token)).Intact));
    }

    [Fact]
    public async Task Write_while_others_write_and_delete_is_whole()
    {
        var photos = await _temp.OpenPhotosAsync();
        var findings = await _temp.OpenAsync();
        using var stop = new CancellationTokenSource();
        var writing = Task.Run(
            async () =>
            {
                var number = 0;
                for (; !stop.IsCancellationRequested; number++)
                {
                    var photo = await SaveAsync(photos, number);
                    await findings.SaveAsync(TestFindings.Small(number), cancellationToken: Token);
                    if (number % 3 == 0)
                    {
                        await photos.DeleteAsync(photo.Name, Token);
                    }
                }

                return number;
            },
            Token);
        while (!File.Exists(_temp.Options.Path) || (long)_temp.Sql("SELECT count(*) FROM findings")! < 20)
        {
            await Task.Delay(10, Token);
        }

        var copies = Enumerable.Range(0, 5).Select(i => StoreBackup.Write(_temp.Options, $"{Copy}{i}", Token)).ToList();
        await stop.CancelAsync();
        var all = await writing;

        Assert.All(copies, copy => Assert.Empty(copy.DamagedPhotos));
        Assert.All(copies, copy => Assert.InRange(copy.FindingCount, 20, all));
        for (var i = 0; i < copies.Count; i++)
        {
            // A photo comes before its finding, so of one moment there are as many, or one more.
            Assert.InRange(copies[i].PhotoCount - copies[i].FindingCount, 0, 1);
            using var restored = new TempStore();
            Assert.Equal(copies[i].PhotoCount, StoreBackup.Restore($"{Copy}{i}", restored.Options, Token).PhotoCount);
            Assert.True((await (await restored.OpenAsync()).VerifyAuditAsync(Token)).Intact);
        }
    }

    [Fact]
    public async Task Write_names_missing_and_damaged_photos()
    {
        var photos = await _temp.OpenPhotosAsync();
        var missing = await SaveAsync(photos, 1);
        var damaged = await SaveAsync(photos, 2);
        var sound = await SaveAsync(photos, 3);
        File.Delete(PathOf(missing));
        await File.WriteAllBytesAsync(PathOf(damaged), [0], Token);

        var copy = StoreBackup.Write(_temp.Options, Copy, Token);

        Assert.Equal(new[] { missing.Name, damaged.Name }.Order(), copy.DamagedPhotos.Order());
        Assert.Equal((1, sound.SizeBytes), (copy.PhotoCount, copy.PhotoBytes));
    }

    [Fact]
    public async Task Write_without_a_store_or_into_a_full_folder_is_refused_and_changes_nothing()
    {
        AssertRefused("There is no store", () => StoreBackup.Write(_temp.Options, Copy, Token));
        Assert.False(File.Exists(_temp.Options.Path));

        await _temp.OpenAsync();
        Directory.CreateDirectory(Copy);
        await File.WriteAllTextAsync(Path.Combine(Copy, "mine"), "", Token);
        AssertRefused("is not empty", () => StoreBackup.Write(_temp.Options, Copy, Token));
        Assert.Single(Directory.EnumerateFileSystemEntries(Copy));
    }

    [Fact]
    public async Task Restore_over_a_store_or_from_no_whole_copy_is_refused_and_changes_nothing()
    {
        AssertRefused("There is no store", () => StoreBackup.Restore(Copy, _other.Options, Token));

        await (await _temp.OpenAsync()).SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        StoreBackup.Write(_temp.Options, Copy, Token);
        AssertRefused("There is a store", () => StoreBackup.Restore(Copy, _temp.Options, Token));

        var file = Path.Combine(Copy, Path.GetFileName(_temp.Options.Path));
        var bytes = await File.ReadAllBytesAsync(file, Token);
        bytes.AsSpan(100, 3_000).Fill(0xA5);
        await File.WriteAllBytesAsync(file, bytes, Token);
        AssertRefused("", () => StoreBackup.Restore(Copy, _other.Options, Token));
        Assert.False(File.Exists(_other.Options.Path));
    }

    private static void AssertRefused(string why, Func<object> call)
    {
        var error = Assert.Throws<CoatScanException>(call);
        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
        Assert.Contains(why, error.Message, StringComparison.Ordinal);
    }

    private static byte[] BytesOf(int number) => [.. BitConverter.GetBytes(number), 1, 2, 3];

    private static Task<StoredPhoto> SaveAsync(PhotoStore store, int number) =>
        store.SaveAsync(new MemoryStream(BytesOf(number)), new PhotoDescription("image/png", 1, 1), Token);

    private string PathOf(StoredPhoto photo) => Assert.Single(
        Directory.GetFiles(Path.Combine(_temp.Folder, "data", "photos"), photo.Sha256, SearchOption.AllDirectories));
}
