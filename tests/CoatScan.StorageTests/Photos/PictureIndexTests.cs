using CoatScan.Findings;
using CoatScan.RealServers;
using CoatScan.Storage;
using CoatScan.Storage.Photos;

namespace CoatScan.StorageTests.Photos;

public abstract class PictureIndexTests(SharedServers? servers) : StoreTest(servers)
{
    private const ulong Hash = 0xb5e04a9fc07f0a5a;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task NoteEarlierAsync_equal_bytes_first_then_nearest_then_oldest_up_to_the_distance()
    {
        await SaveFindingsAsync(
            (1, "far", Hash ^ 0b111), (2, "near", Hash ^ 0b1), (3, "also near", Hash ^ 0b10), (4, "same", Hash), (5, "flat", null));
        var index = new PictureIndex(Temp.OpenDatabase());

        var two = await EarlierAsync(index, Report("same", Hash), 2, 10);
        var three = await EarlierAsync(index, Report("same", Hash), 3, 10);
        var first = await EarlierAsync(index, Report("same", Hash), 64, 1);

        Assert.Equal([4, 2, 3], two.Select(Number));
        Assert.Equal([4, 2, 3, 1], three.Select(Number));
        Assert.Equal([(true, 0), (false, 1), (false, 1), (false, 3)], three.Select(one => (one.SameBytes, one.DistanceBits)));
        Assert.Equal([4], first.Select(Number));
        Assert.Equal("2026-05-01T10:00:00", three[0].CaptureTime);
    }

    [Fact]
    public async Task NoteEarlierAsync_flat_picture_is_found_by_equal_bytes_only()
    {
        await SaveFindingsAsync((1, "flat", null), (2, "another flat one", null), (3, "textured", Hash));
        var index = new PictureIndex(Temp.OpenDatabase());

        Assert.Equal([1], (await EarlierAsync(index, Report("flat", null), 64, 10)).Select(Number));
    }

    [Fact]
    public async Task NoteEarlierAsync_other_tenant_is_not_seen()
    {
        await SaveFindingsAsync((1, "same", Hash));
        var index = new PictureIndex(Temp.OpenDatabase());
        using (Temp.Tenants.Enter(new Tenant("north")))
        {
            Assert.Empty(await EarlierAsync(index, Report("same", Hash), 64, 10));
        }
    }

    [Fact]
    public async Task NoteEarlierAsync_deleted_and_purged_findings_are_forgotten()
    {
        var store = await SaveFindingsAsync((1, "same", Hash), (2, "same", Hash));
        var index = new PictureIndex(Temp.OpenDatabase());

        await store.DeleteAsync("findings/f000001", Token);
        Assert.Equal([2], (await EarlierAsync(index, Report("same", Hash), 6, 10)).Select(Number));

        Temp.Time.Advance(TimeSpan.FromDays(366));
        await store.PurgeAsync(Token);
        Assert.Empty(await EarlierAsync(index, Report("same", Hash), 6, 10));
        Assert.Equal(0L, Temp.Sql("SELECT count(*) FROM finding_photos"));
    }

    [Fact]
    public async Task SaveAsync_picture_hash_and_notes_come_back_with_the_finding()
    {
        var store = await Temp.OpenAsync();
        var report = Report("same", ulong.MaxValue) with
        {
            SeenBefore = [new EarlierPicture("findings/a", TestFindings.Noon, new string('0', 64), false, 3, null)],
        };

        await store.SaveAsync(TestFindings.Small(1) with { Photos = [report] }, cancellationToken: Token);

        var photo = Assert.Single((await store.GetAsync("findings/f000001", Token)).Photos);
        Assert.Equal(ulong.MaxValue, photo.PictureHash);
        Assert.Equal(report.SeenBefore, photo.SeenBefore);
    }

    [Fact]
    public async Task SaveAsync_of_findings_that_come_at_once_each_sees_all_before_it()
    {
        var store = await Temp.OpenAsync();
        var look = new EarlierLook(6, 20);

        var saved = await Task.WhenAll(Enumerable.Range(0, 8).Select(number => Task.Run(
            () => store.SaveAsync(
                TestFindings.Small(number) with { Photos = [Report("same", Hash)] }, look: look, cancellationToken: Token),
            Token)));

        Assert.Equal(Enumerable.Range(0, 8), saved.Select(one => one.Photos[0].SeenBefore.Count).Order());
        Assert.All(saved, one => Assert.DoesNotContain(one.Photos[0].SeenBefore, earlier => earlier.Finding == one.Name));
        var read = await store.GetAsync(saved[0].Name, Token);
        Assert.Equal(saved[0].Photos[0].SeenBefore, read.Photos[0].SeenBefore);
    }

    private static async Task<IReadOnlyList<EarlierPicture>> EarlierAsync(
        PictureIndex index, PhotoReport photo, int maxDistanceBits, int maxFindings) =>
        (await index.NoteEarlierAsync(
            TestFindings.Small(99) with { Photos = [photo] }, new EarlierLook(maxDistanceBits, maxFindings), Token))
        .Photos[0].SeenBefore;

    private static int Number(EarlierPicture earlier) => earlier.Finding[^1] - '0';

    private static PhotoReport Report(string bytes, ulong? hash) => new()
    {
        Sha256 = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(bytes))),
        WidthPx = 1,
        HeightPx = 1,
        PictureHash = hash,
        CaptureTime = "2026-05-01T10:00:00",
    };

    private async Task<FindingStore> SaveFindingsAsync(params (int Number, string Bytes, ulong? Hash)[] photos)
    {
        var store = await Temp.OpenAsync();
        foreach (var (number, bytes, hash) in photos)
        {
            await store.SaveAsync(
                TestFindings.Small(number, TestFindings.Noon.AddMinutes(number)) with { Photos = [Report(bytes, hash)] },
                cancellationToken: Token);
        }

        return store;
    }
}
