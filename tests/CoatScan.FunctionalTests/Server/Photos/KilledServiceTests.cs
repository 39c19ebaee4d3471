using CoatScan.Client;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Storage.Photos;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Server.Photos;

/// <summary>What is left when the process is killed, and what was on the disk before the caller heard OK.</summary>
public sealed class KilledServiceTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-test-").FullName;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Incoming => Path.Combine(_folder, "photos", "incoming");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Killed_in_an_upload_and_an_analysis_keeps_what_was_acknowledged_and_nothing_half()
    {
        var acknowledged = new List<Photo>();
        for (var trial = 0; trial < 3; trial++)
        {
            await using var service = await ServiceProcess.StartAsync(_folder);
            await AssertWholeAsync(service, acknowledged);
            acknowledged.Add(await service.Photos.SendAsync(Uploads.Of(Panels.OtherScene(90_200 + (ulong)trial))));

            var half = Panels.OtherScene(90_300 + (ulong)trial);
            using var call = service.Photos.UploadPhoto(cancellationToken: Token);
            await call.RequestStream.WriteAsync(Uploads.Metadata(half), Token);
            await call.RequestStream.WriteAsync(Uploads.Chunk(half.AsSpan(0, half.Length / 2)), Token);
            var analyses = Enumerable.Range(0, 4)
                .Select(i => service.Findings.AnalyzePhotoAsync(
                    new() { Photo = new() { Photo = acknowledged[i % acknowledged.Count].Name } }).ResponseAsync)
                .ToList();
            while (Directory.GetFiles(Incoming).Length <= trial)
            {
                await Task.Delay(10, Token);
            }

            // At a different point of the analyses each time.
            await Task.WhenAny(analyses.Skip(trial));
            await service.KillAsync();
        }

        // Not one of the half-received files has become a photo, and the next start past their time removes them.
        Assert.Equal(3, Directory.GetFiles(Incoming).Length);
        foreach (var path in Directory.GetFiles(Incoming))
        {
            File.SetLastWriteTimeUtc(path, File.GetLastWriteTimeUtc(path) - PhotoStore.HalfReceivedAge);
        }

        await using var last = await ServiceProcess.StartAsync(_folder);
        while (Directory.GetFiles(Incoming).Length > 0)
        {
            await Task.Delay(50, Token);
        }

        await AssertWholeAsync(last, acknowledged);
        Assert.Equal(3, Directory.GetFiles(Path.Combine(_folder, "photos"), "*", SearchOption.AllDirectories).Length);
    }

    [Fact]
    public async Task File_name_and_row_are_synced_in_this_order_before_the_caller_hears_ok()
    {
        Assert.SkipUnless(File.Exists("/usr/bin/strace"), "needs strace");
        var trace = Path.Combine(_folder, "trace");
        await using var service = await ServiceProcess.StartAsync(
            Path.Combine(_folder, "data"), "strace", "-f", "-y", "-qq", "-o", trace, "-e", "trace=fsync,fdatasync,rename,renameat,renameat2");
        var before = (await ReadAsync(trace)).Count;

        var photo = await new PhotoUploader(service.Photos).UploadAsync(new MemoryStream(Panels.Sound), "", Token);

        var lines = (await ReadAsync(trace)).Skip(before).ToList();
        var file = lines.FindIndex(line => line.Contains("sync(", StringComparison.Ordinal) && line.Contains("/incoming/", StringComparison.Ordinal));
        var name = lines.FindIndex(line => line.Contains("rename", StringComparison.Ordinal) && line.Contains(photo.Sha256, StringComparison.Ordinal));
        var folder = lines.FindLastIndex(line => line.Contains(" fsync(", StringComparison.Ordinal) && line.Contains("/photos/", StringComparison.Ordinal));
        var row = lines.FindLastIndex(line => line.Contains("sync(", StringComparison.Ordinal) && line.Contains("coatscan.db-wal", StringComparison.Ordinal));
        Assert.True(
            file >= 0 && file < name && name < folder && folder < row,
            $"file {file}, name {name}, folder {folder}, row {row}:\n{string.Join('\n', lines)}");
    }

    private static async Task AssertWholeAsync(ServiceProcess service, List<Photo> acknowledged)
    {
        foreach (var photo in acknowledged)
        {
            Assert.Equal(photo, await service.Photos.GetPhotoAsync(new() { Name = photo.Name }));
            var finding = await service.Findings.AnalyzePhotoAsync(
                new() { Photo = new() { Photo = photo.Name }, ValidateOnly = true });
            Assert.Equal(photo.Sha256, finding.Photos[0].Sha256);
        }

        // Every finding has the digest of its photo, and is known by it.
        var findings = await service.Findings.ListFindingsAsync(new());
        Assert.All(findings.Findings, finding => Assert.Contains(
            finding.Photos[0].Sha256, acknowledged.Select(photo => photo.Sha256)));
        var known = new List<string>();
        foreach (var photo in acknowledged)
        {
            var similar = await service.Photos.FindSimilarPhotosAsync(new() { Name = photo.Name, MaxDistanceBits = 0 });
            known.AddRange(similar.Photos.SelectMany(one => one.Findings));
        }

        Assert.Equal(findings.Findings.Select(finding => finding.Name).Order(), known.Order());
        var status = await Assert.ThrowsAsync<RpcException>(
            async () => await service.Photos.GetPhotoAsync(new() { Name = $"photos/{Uploads.Sha256Of(Panels.OtherScene(90_300))}" }));
        Assert.Equal(StatusCode.NotFound, status.StatusCode);
    }

    private static async Task<List<string>> ReadAsync(string path)
    {
        await using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        using var reader = new StreamReader(file);
        return [.. (await reader.ReadToEndAsync(Token)).Split('\n', StringSplitOptions.RemoveEmptyEntries)];
    }
}
