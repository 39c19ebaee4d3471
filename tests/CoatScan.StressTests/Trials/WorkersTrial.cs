using System.Diagnostics;
using System.Globalization;
using CoatScan.V1;

namespace CoatScan.StressTests.Trials;

/// <summary>
/// One worker process on a core against two on two, on PostgreSQL and RabbitMQ, in turn: how many photos a second more two finish.
/// Database, broker and this program run beside them on whatever core is free, as on a machine of two cores they have to.
/// </summary>
internal static class WorkersTrial
{
    private const double LeastRatio = 1.8;
    private const int WarmUpItems = 10;

    private static readonly TimeSpan LookInterval = TimeSpan.FromMilliseconds(50);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var (rounds, items) = (options.Whole("rounds", 5), options.Whole("items", 100));
        var cores = Cores(options);
        await using var ground = await SharedGround.StartAsync();
        var (ones, twos) = (new List<double>(), new List<double>());
        for (var round = 0; round < rounds; round++)
        {
            ones.Add(await RateAsync(ground, cores[..1], $"one-{round}", items));
            twos.Add(await RateAsync(ground, cores, $"two-{round}", 2 * items));
            figures.Say($"round {round + 1}", $"one {ones[^1]:0.00}, two {twos[^1]:0.00} photos a second, {twos[^1] / ones[^1]:0.00} times");
        }

        var ratios = ones.Zip(twos, (one, two) => two / one).Order().ToList();
        figures.Say("cores", $"{string.Join(" and ", cores)} of {Environment.ProcessorCount}");
        figures.AtLeast("two workers against one, median of the rounds", Median(ratios), LeastRatio, "times");
    }

    private static int[] Cores(TrialOptions options)
    {
        var words = options.Has("cores") ? options.Text("cores").Split(',') : ["0", "1"];
        var cores = words.Select(word => int.TryParse(word, CultureInfo.InvariantCulture, out var core) && core >= 0 ? core : -1).Distinct().ToArray();
        return cores is [>= 0, >= 0] ? cores : throw new ArgumentException("--cores takes two numbers of cores, as 0,1.");
    }

    private static double Median(List<double> sorted) => (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;

    /// <summary>Photos a second between a tenth and nine tenths of a batch: neither start nor end, where a worker waits for another.</summary>
    private static async Task<double> RateAsync(SharedGround ground, int[] cores, string name, int items)
    {
        var services = new List<ServiceUnderTest>();
        try
        {
            foreach (var core in cores)
            {
                services.Add(await ground.StartServiceAsync($"{name}-{core}", core));
            }

            // What the first photos take is compilation, in every process.
            var photos = await BatchFeed.UploadAsync(services[0], items, i => StressPhotos.Variant(StressPhotos.Ordinary, i));
            await BatchFeed.StartAsync(services[0], $"{name}-warm", photos, WarmUpItems * cores.Length);
            await GradedAsync(services[0], $"{name}-warm", WarmUpItems * cores.Length);

            await BatchFeed.StartAsync(services[0], name, photos, items);
            var first = await GradedAsync(services[0], name, items / 10);
            var clock = Stopwatch.StartNew();
            var last = await GradedAsync(services[0], name, items * 9 / 10);
            var rate = (last - first) / clock.Elapsed.TotalSeconds;
            await GradedAsync(services[0], name, items);
            return rate;
        }
        finally
        {
            foreach (var service in services)
            {
                await service.DisposeAsync();
            }
        }
    }

    /// <summary>Waits until so many are graded, or all are at rest.</summary>
    private static async Task<int> GradedAsync(ServiceUnderTest service, string batch, int count)
    {
        while (true)
        {
            var now = await service.Batches.GetBatchAsync(new GetBatchRequest { Name = $"batches/{batch}" });
            if (now.FailedCount > 0)
            {
                throw new InvalidOperationException($"{now.FailedCount} items of {batch} failed.");
            }

            if (now.GradedCount >= count)
            {
                return now.GradedCount;
            }

            await Task.Delay(LookInterval);
        }
    }
}
