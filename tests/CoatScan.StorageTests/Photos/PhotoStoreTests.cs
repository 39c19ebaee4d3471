using System.Runtime.Versioning;
using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage.Photos;

namespace CoatScan.StorageTests.Photos;

public abstract class PhotoStoreTests(SharedServers? servers) : StoreTest(servers)
{
    private static readonly byte[] Bytes = RandomNumberGenerator.GetBytes(200_000);
    private static readonly string Sha256 = Convert.ToHexStringLower(SHA256.HashData(Bytes));

    private static readonly PhotoDescription Description = new("image/jpeg", 640, 480)
    {
        DisplayName = "left door",
        CaptureTime = "2026-05-01T10:00:00",
        PerceptualHash = 0xb5e04a9fc07f0a5a,
    };

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string PhotoRoot => Path.Combine(Temp.Folder, "data", "photos");

    [Fact]
    public async Task SaveAsync_photo_is_read_back_after_a_restart()
    {
        var saved = await SaveAsync(await Temp.OpenPhotosAsync());
        Temp.Close();
        var store = await Temp.OpenPhotosAsync();

        Assert.Equal($"photos/{Sha256}", saved.Name);
        Assert.Equal(saved, await store.GetAsync(saved.Name, cancellationToken: Token));
        Assert.Equal(Description, saved.Description);
        Assert.Equal(Bytes, (await store.ReadAsync(saved.Name, cancellationToken: Token)).ToArray());
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(PhotoRoot, "incoming")));
    }

    [Fact]
    public async Task SaveAsync_same_bytes_again_is_the_same_photo_kept_longer()
    {
        var store = await Temp.OpenPhotosAsync();
        var first = await SaveAsync(store);
        Temp.Time.Advance(TimeSpan.FromDays(10));

        var second = await SaveAsync(store);

        Assert.Equal(first with { ExpireTime = first.ExpireTime.AddDays(10) }, second);
        Assert.Equal(1L, Temp.Sql("SELECT count(*) FROM photos"));
    }

    [Fact]
    public async Task SaveAsync_same_bytes_from_many_at_once_is_one_photo()
    {
        var store = await Temp.OpenPhotosAsync();

        await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Task.Run(() => SaveAsync(store), Token)));

        Assert.Equal(1L, Temp.Sql("SELECT count(*) FROM photos"));
        Assert.Equal(Bytes, (await store.ReadAsync($"photos/{Sha256}", cancellationToken: Token)).ToArray());
        Assert.Single(Files());
    }

    [Fact]
    public async Task Begin_draft_that_is_not_kept_leaves_nothing()
    {
        var store = await Temp.OpenPhotosAsync();

        await using (var draft = store.Begin())
        {
            await draft.WriteAsync(Bytes, Token);
            Assert.Equal((Bytes.LongLength, Sha256), (draft.SizeBytes, draft.Digest()));
            Assert.Equal(Bytes, draft.Read());
            Assert.Single(Files());
        }

        Assert.Empty(Files());
        Assert.Null(await store.FindAsync(Sha256, Token));
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public async Task Files_are_named_by_hashes_and_are_for_the_owner_only()
    {
        await SaveAsync(await Temp.OpenPhotosAsync());

        var path = Assert.Single(Files());

        Assert.Equal(Sha256, Path.GetFileName(path));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        Assert.Equal(
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
            File.GetUnixFileMode(Path.GetDirectoryName(path)!));
        Assert.DoesNotContain("local", path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task DeleteAsync_photo_is_gone_at_once_its_bytes_after_a_day()
    {
        var store = await Temp.OpenPhotosAsync();
        var photo = await SaveAsync(store);

        await store.DeleteAsync(photo.Name, Token);

        Assert.Equal(ErrorReason.PhotoNotFound, (await FailAsync(() => store.GetAsync(photo.Name, cancellationToken: Token))).Reason);
        Assert.Equal(
            ErrorReason.PhotoNotFound,
            (await FailAsync(() => store.ReadAsync(photo.Name, cancellationToken: Token))).Reason);
        Assert.Equal(ErrorReason.PhotoNotFound, (await FailAsync(() => store.DeleteAsync(photo.Name, Token))).Reason);
        Assert.Equal(Bytes, (await store.ReadAsync(photo.Name, evenIfMarked: true, Token)).ToArray());

        Temp.Time.Advance(TimeSpan.FromHours(24) - TimeSpan.FromTicks(1));
        Assert.Equal(0, (await store.SweepAsync(Token)).Removed);
        Assert.Single(Files());

        Temp.Time.Advance(TimeSpan.FromTicks(1));
        Assert.Equal(1, (await store.SweepAsync(Token)).Removed);
        Assert.Empty(Files());
        Assert.Equal(0L, Temp.Sql("SELECT count(*) FROM photos"));
    }

    [Fact]
    public async Task SaveAsync_marked_photo_comes_back()
    {
        var store = await Temp.OpenPhotosAsync();
        var photo = await SaveAsync(store);
        await store.DeleteAsync(photo.Name, Token);

        await SaveAsync(store);
        Temp.Time.Advance(TimeSpan.FromDays(2));
        await store.SweepAsync(Token);

        Assert.Equal(Bytes, (await store.ReadAsync(photo.Name, cancellationToken: Token)).ToArray());
    }

    [Fact]
    public async Task Audit_log_tells_when_a_photo_came_was_deleted_and_removed()
    {
        var store = await Temp.OpenPhotosAsync();
        var photo = await SaveAsync(store);
        await SaveAsync(store);

        await store.DeleteAsync(photo.Name, Token);
        await FailAsync(() => store.DeleteAsync(photo.Name, Token));
        Temp.Time.Advance(PhotoStore.RemovalDelay);
        await store.SweepAsync(Token);

        Assert.Equal(
            $"create {photo.Name} done,delete {photo.Name} done,delete {photo.Name} not_found,purge {photo.Name} done",
            Temp.Sql(
                "SELECT string_agg(action || ' ' || resource || ' ' || outcome, ',' ORDER BY sequence) FROM audit_entries"));
    }

    [Fact]
    public async Task SweepAsync_marks_at_the_end_of_retention()
    {
        var store = await Temp.OpenPhotosAsync();
        var photo = await SaveAsync(store);

        Temp.Time.Advance(TimeSpan.FromDays(365) - TimeSpan.FromTicks(1));
        Assert.Equal(0, (await store.SweepAsync(Token)).Expired);
        Temp.Time.Advance(TimeSpan.FromTicks(1));
        Assert.Equal(1, (await store.SweepAsync(Token)).Expired);

        Assert.Null(await store.FindAsync(photo.Sha256, Token));
    }

    [Fact]
    public async Task SweepAsync_removes_half_received_files_and_files_without_a_row_when_they_are_old()
    {
        var store = await Temp.OpenPhotosAsync();
        await SaveAsync(store);
        var own = Assert.Single(Files());
        var half = Path.Combine(PhotoRoot, "incoming", "half");
        var stray = Path.Combine(Path.GetDirectoryName(own)!, new string('a', 64));
        await File.WriteAllBytesAsync(half, Bytes, Token);
        await File.WriteAllBytesAsync(stray, Bytes, Token);

        Touch(half, PhotoStore.HalfReceivedAge - TimeSpan.FromSeconds(1));
        Touch(stray, TimeSpan.FromMinutes(59));
        Touch(own, TimeSpan.FromDays(2));
        Assert.Equal(new PhotoSweep(0, 0, 0, 0), await store.SweepAsync(Token));

        Touch(half, PhotoStore.HalfReceivedAge + TimeSpan.FromSeconds(1));
        Touch(stray, TimeSpan.FromMinutes(61));
        Assert.Equal(new PhotoSweep(1, 0, 0, 1), await store.SweepAsync(Token));
        Assert.Equal(own, Assert.Single(Files()));
    }

    [Fact]
    public async Task ReadAsync_damaged_bytes_are_not_given_out()
    {
        var store = await Temp.OpenPhotosAsync();
        var photo = await SaveAsync(store);
        await File.WriteAllBytesAsync(Assert.Single(Files()), Bytes[1..], Token);

        var error = await FailAsync(() => store.ReadAsync(photo.Name, cancellationToken: Token));

        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
        Assert.Contains("damaged", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Prepare_folder_that_takes_no_file_is_said_in_one_sentence()
    {
        await File.WriteAllTextAsync(Path.Combine(Temp.Folder, "taken"), "a file", Token);
        Temp.Options.PhotoPath = Path.Combine(Temp.Folder, "taken");

        var error = await FailAsync(Temp.OpenPhotosAsync);

        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
        Assert.Equal($"The photo folder {Temp.Options.PhotoPath} cannot be written.", error.Message);
    }

    [Theory]
    [InlineData("")]
    [InlineData("photos/")]
    [InlineData("photos/../../secret")]
    [InlineData("findings/b5e04a9fc07f0a5ab5e04a9fc07f0a5ab5e04a9fc07f0a5ab5e04a9fc07f0a5a")]
    [InlineData("photos/B5E04A9FC07F0A5AB5E04A9FC07F0A5AB5E04A9FC07F0A5AB5E04A9FC07F0A5A")]
    [InlineData("photos/b5e04a9fc07f0a5ab5e04a9fc07f0a5ab5e04a9fc07f0a5ab5e04a9fc07f0a5")]
    [InlineData("photos/b5e04a9fc07f0a5ab5e04a9fc07f0a5ab5e04a9fc07f0a5ab5e04a9fc07f0a5a0")]
    public async Task Name_that_is_none_is_refused(string name)
    {
        var store = await Temp.OpenPhotosAsync();
        foreach (var call in new Func<Task>[]
        {
            () => store.GetAsync(name, cancellationToken: Token),
            () => store.ReadAsync(name, cancellationToken: Token),
            () => store.DeleteAsync(name, Token),
        })
        {
            var error = await FailAsync(call);
            Assert.Equal((ErrorReason.FieldInvalid, "name"), (error.Reason, error.Field));
        }
    }

    private static Task<StoredPhoto> SaveAsync(PhotoStore store) =>
        store.SaveAsync(new MemoryStream(Bytes), Description, Token);

    private static Task<CoatScanException> FailAsync(Func<Task> call) => Assert.ThrowsAsync<CoatScanException>(call);

    private void Touch(string path, TimeSpan age) =>
        File.SetLastWriteTimeUtc(path, (Temp.Time.GetUtcNow() - age).UtcDateTime);

    private List<string> Files() => [.. Directory.EnumerateFiles(PhotoRoot, "*", SearchOption.AllDirectories)];
}
