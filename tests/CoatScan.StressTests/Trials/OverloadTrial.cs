using System.Diagnostics;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.StressTests.Trials;

/// <summary>Bar O1: many times more calls than the service can serve, without anybody trying again.</summary>
internal static class OverloadTrial
{
    // RELIABILITY section 4: 300 MB a worker above an idle process.
    private const double MemoryMbPerWorker = 300;

    private static readonly TimeSpan Deadline = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan UnloadedTime = TimeSpan.FromSeconds(20);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var (seconds, factor) = (options.Number("seconds", 180), options.Number("factor", 10));
        using var folder = new TemporaryFolder();
        await using var service = await ServiceUnderTest.StartAsync(folder.Path);
        var calls = new FindingService.FindingServiceClient(service.PlainChannel);

        // What is loaded and compiled at the first photos is none of the load's.
        for (var i = 0; i < 10; i++)
        {
            await CallAsync(calls, -1 - i);
        }

        var idleMb = service.ResidentMb;
        var unloaded = new Latencies();
        var clock = Stopwatch.StartNew();
        for (var i = 0; clock.Elapsed < UnloadedTime; i++)
        {
            unloaded.Add((await CallAsync(calls, 1_000_000 + i)).Time);
        }

        var perSecond = unloaded.Count / clock.Elapsed.TotalSeconds * Math.Max(1, Environment.ProcessorCount - 1);
        var load = await LoadAsync(service, calls, perSecond * factor, TimeSpan.FromSeconds(seconds));

        clock.Restart();
        var normalAfter = 0.0;
        for (var isNormal = false; !isNormal && clock.Elapsed < Deadline;)
        {
            normalAfter = clock.Elapsed.TotalSeconds;
            var (code, took, _) = await CallAsync(calls, 3_000_000 + (int)clock.ElapsedMilliseconds);
            isNormal = code == StatusCode.OK && took.TotalMilliseconds <= 2 * unloaded.Percentile(0.99);
        }

        figures.Say("unloaded calls", $"{unloaded.Count}, {perSecond:0.0} a second can be served");
        figures.Say("unloaded p50 / p99", $"{unloaded.Percentile(0.5):0} / {unloaded.Percentile(0.99):0} ms");
        figures.Say("calls a second under load", $"{load.Sent / seconds:0.0}, {load.Sent} in all");
        figures.Say("accepted", $"{load.Accepted.Count}, {load.Accepted.Count / seconds:0.0} a second");
        figures.Say("refused", $"{load.Refused.Count}, p50 {load.Refused.Percentile(0.5):0.0} ms");
        figures.AtMost("refused, p99", load.Refused.Percentile(0.99), 50, "ms");
        figures.AtMost("accepted, p99 against unloaded p99", load.Accepted.Percentile(0.99) / unloaded.Percentile(0.99), 2, "times");
        figures.AtMost("ended otherwise", load.Otherwise, 0, "calls");
        figures.AtMost("refusals without pushback", load.WithoutPushback, 0, "calls");
        figures.AtMost("memory above idle, most", load.PeakMb - idleMb, MemoryMbPerWorker * Math.Max(1, Environment.ProcessorCount - 1), "MB");
        figures.AtMost("normal again after", normalAfter, 10, "s");
    }

    // As many calls as come, whatever became of those before: a queue of people, not a loop.
    private static async Task<Load> LoadAsync(
        ServiceUnderTest service, FindingService.FindingServiceClient calls, double perSecond, TimeSpan time)
    {
        var load = new Load();
        var running = new List<Task>();
        var clock = Stopwatch.StartNew();
        while (clock.Elapsed < time)
        {
            for (var due = (int)(clock.Elapsed.TotalSeconds * perSecond); load.Sent < due; load.Sent++)
            {
                running.Add(OneAsync(calls, load, load.Sent));
            }

            running.RemoveAll(call => call.IsCompletedSuccessfully);
            load.PeakMb = Math.Max(load.PeakMb, service.ResidentMb);
            await Task.Delay(10);
        }

        await Task.WhenAll(running);
        return load;
    }

    private static async Task OneAsync(FindingService.FindingServiceClient calls, Load load, int number)
    {
        var (code, time, pushback) = await CallAsync(calls, number);
        switch (code)
        {
            case StatusCode.OK:
                load.Accepted.Add(time);
                break;
            case StatusCode.ResourceExhausted:
                load.Refused.Add(time);
                load.CountPushback(pushback);
                break;
            default:
                load.CountOtherwise();
                break;
        }
    }

    private static async Task<(StatusCode Code, TimeSpan Time, bool Pushback)> CallAsync(
        FindingService.FindingServiceClient calls, int number)
    {
        var request = StressPhotos.Request(StressPhotos.Variant(StressPhotos.Ordinary, number));
        var start = Stopwatch.GetTimestamp();
        try
        {
            await calls.AnalyzePhotoAsync(request, deadline: TimeProvider.System.GetUtcNow().UtcDateTime + Deadline);
            return (StatusCode.OK, Stopwatch.GetElapsedTime(start), false);
        }
        catch (RpcException e)
        {
            return (e.StatusCode, Stopwatch.GetElapsedTime(start), e.Trailers.Any(entry => entry.Key == "grpc-retry-pushback-ms"));
        }
    }

    private sealed class Load
    {
        private int _otherwise;
        private int _withoutPushback;

        public int Sent { get; set; }

        public Latencies Accepted { get; } = new();

        public Latencies Refused { get; } = new();

        public int Otherwise => _otherwise;

        public int WithoutPushback => _withoutPushback;

        public double PeakMb { get; set; }

        public void CountOtherwise() => Interlocked.Increment(ref _otherwise);

        public void CountPushback(bool has) => Interlocked.Add(ref _withoutPushback, has ? 0 : 1);
    }
}
