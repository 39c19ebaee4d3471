using System.Collections.Concurrent;
using System.Diagnostics;
using CoatScan.Client;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.StressTests.Trials;

/// <summary>Bar D2: two instances on one store are restarted in turn while people call; what our client sees.</summary>
internal static class RollingTrial
{
    private static readonly TimeSpan BetweenRestarts = TimeSpan.FromSeconds(3);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var (restarts, callers) = (options.Whole("restarts", 6), options.Whole("callers", 4));
        using var folder = new TemporaryFolder();
        await using var first = await ServiceUnderTest.StartAsync(folder.Path);
        await using var second = await ServiceUnderTest.StartAsync(folder.Path);
        using var channel = CoatScanChannel.ForAddresses([first.Address, second.Address]);
        using var stop = new CancellationTokenSource();
        var failures = new ConcurrentDictionary<string, int>();
        var served = new ConcurrentDictionary<string, int>();
        var running = Enumerable.Range(0, callers).Select(i => CallAsync(channel, i, failures, served, stop.Token)).ToList();

        var slowestStop = TimeSpan.Zero;
        var badExits = 0;
        for (var i = 0; i < restarts; i++)
        {
            var instance = i % 2 == 0 ? first : second;
            await Task.Delay(BetweenRestarts);
            var start = Stopwatch.GetTimestamp();
            badExits += await instance.StopAsync() == 0 ? 0 : 1;
            var took = Stopwatch.GetElapsedTime(start);
            slowestStop = took > slowestStop ? took : slowestStop;
            await instance.RestartAsync();
        }

        await Task.Delay(BetweenRestarts);
        await stop.CancelAsync();
        await Task.WhenAll(running);

        foreach (var (what, count) in served.OrderBy(one => one.Key, StringComparer.Ordinal))
        {
            figures.Say($"served: {what}", $"{count}");
        }

        foreach (var (what, count) in failures)
        {
            figures.Say($"failed: {what}", $"{count}");
        }

        figures.Say("restarts", $"{restarts}");
        figures.AtMost("calls that failed", failures.Values.Sum(), 0, $"of {served.Values.Sum() + failures.Values.Sum()}");
        figures.AtMost("exits other than 0", badExits, 0, $"of {restarts}");
        figures.AtMost("slowest stop", slowestStop.TotalSeconds, 30, "s");
        figures.AtLeast("calls served", served.Values.Sum(), restarts, "");
    }

    private static async Task CallAsync(
        ChannelBase channel,
        int caller,
        ConcurrentDictionary<string, int> failures,
        ConcurrentDictionary<string, int> served,
        CancellationToken stop)
    {
        var findings = new FindingService.FindingServiceClient(channel);
        var uploader = new PhotoUploader(new PhotoService.PhotoServiceClient(channel));
        for (var i = 0; !stop.IsCancellationRequested; i++)
        {
            var photo = StressPhotos.Variant(StressPhotos.Small, (caller * 1_000_000) + i);
            await OneAsync("analyze", async () => await findings.AnalyzePhotoAsync(StressPhotos.Request(photo), deadline: Soon(60)));
            await OneAsync("rank", async () => await findings.RankCausesAsync(
                new RankCausesRequest { Facts = new PanelFacts { Evidence = { "form.domes" } } }, deadline: Soon(20)));
            await OneAsync("list", async () => await findings.ListFindingsAsync(new ListFindingsRequest { PageSize = 5 }, deadline: Soon(20)));
            await OneAsync("upload", async () =>
            {
                using var content = new MemoryStream(photo);
                await uploader.UploadAsync(content);
            });
        }

        async Task OneAsync(string what, Func<Task> call)
        {
            try
            {
                await call();
                served.AddOrUpdate(what, 1, (_, count) => count + 1);
            }
            catch (Exception e) when (e is RpcException or CoatScanCallException)
            {
                var why = e is RpcException rpc ? $"{rpc.StatusCode} {rpc.Status.Detail}" : e.Message;
                failures.AddOrUpdate($"{what}: {why}", 1, (_, count) => count + 1);
            }
        }
    }

    private static DateTime Soon(int seconds) => TimeProvider.System.GetUtcNow().UtcDateTime.AddSeconds(seconds);
}
