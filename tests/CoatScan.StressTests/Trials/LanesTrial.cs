using System.Diagnostics;
using CoatScan.V1;

namespace CoatScan.StressTests.Trials;

/// <summary>Bar O2: how long people wait for a photo while a batch runs.</summary>
internal static class LanesTrial
{
    private const int DifferentPhotos = 500;

    // A person looks at a finding before the next photo.
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(300);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var (items, time) = (options.Whole("items", 5000), TimeSpan.FromSeconds(options.Number("seconds", 120)));
        using var folder = new TemporaryFolder();
        await using var service = await ServiceUnderTest.StartAsync(folder.Path);
        var photos = await BatchFeed.UploadAsync(service, Math.Min(items, DifferentPhotos));
        await CallsAsync(service, TimeSpan.FromSeconds(5), 0);

        var alone = await CallsAsync(service, time, 100_000);
        await BatchFeed.StartAsync(service, "lanes", photos, items);
        var start = await service.Batches.GetBatchAsync(new GetBatchRequest { Name = "batches/lanes" });
        var beside = await CallsAsync(service, time, 200_000);
        var end = await service.Batches.GetBatchAsync(new GetBatchRequest { Name = "batches/lanes" });

        figures.Say("calls alone", $"{alone.Count}, p50 {alone.Percentile(0.5):0} ms, p95 {alone.Percentile(0.95):0} ms");
        figures.Say("calls beside the batch", $"{beside.Count}, p50 {beside.Percentile(0.5):0} ms, p95 {beside.Percentile(0.95):0} ms");
        figures.AtMost("p95 beside the batch against alone", beside.Percentile(0.95) / alone.Percentile(0.95), 1.5, "times");
        figures.AtLeast("panels graded meanwhile", end.GradedCount - start.GradedCount, 1, "");
        figures.AtLeast("panels that still waited at the end", end.ItemCount - end.GradedCount, 1, "");
    }

    private static async Task<Latencies> CallsAsync(ServiceUnderTest service, TimeSpan time, int firstNumber)
    {
        var latencies = new Latencies();
        var clock = Stopwatch.StartNew();
        while (clock.Elapsed < time)
        {
            var request = StressPhotos.Request(StressPhotos.Variant(StressPhotos.Ordinary, firstNumber++));
            var start = Stopwatch.GetTimestamp();
            await service.Findings.AnalyzePhotoAsync(request);
            latencies.Add(Stopwatch.GetElapsedTime(start));
            await Task.Delay(Pause);
        }

        return latencies;
    }
}
