using System.Diagnostics;
using CoatScan.V1;
using Microsoft.Data.Sqlite;

namespace CoatScan.StressTests.Trials;

/// <summary>The service is killed at random moments in the middle of batches: what is missing, what is there twice, how soon it goes on.</summary>
internal static class KillTrial
{
    private const double LongestResumeSeconds = 10;

    private static readonly TimeSpan LookInterval = TimeSpan.FromMilliseconds(50);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var (trials, items, kills) = (options.Whole("trials", 25), options.Whole("items", 500), options.Whole("kills", 4));
        var random = new Random(options.Whole("seed", 1));
        using var folder = new TemporaryFolder();
        await using var service = await ServiceUnderTest.StartAsync(folder.Path);
        var photos = await BatchFeed.UploadAsync(service, items);
        var resumes = new Latencies();
        long missing = 0, twice = 0, killed = 0, known = 0;
        for (var trial = 0; trial < trials; trial++)
        {
            var batch = $"kills-{trial}";
            await BatchFeed.StartAsync(service, batch, photos, items);
            for (var kill = 0; kill < kills; kill++)
            {
                // Spread over the batch, at moments that have nothing to do with what it is doing then.
                await WaitForAsync(service, batch, now => now.FinishTime is not null || now.GradedCount >= items * (kill + 0.5) / (kills + 1));
                await Task.Delay(random.Next(0, 1000));
                var before = await service.Batches.GetBatchAsync(new GetBatchRequest { Name = $"batches/{batch}" });
                if (before.FinishTime is not null)
                {
                    break;
                }

                await service.KillAsync();
                killed++;
                var clock = Stopwatch.StartNew();
                await service.RestartAsync();
                var atStart = (await service.Batches.GetBatchAsync(new GetBatchRequest { Name = $"batches/{batch}" })).GradedCount;
                await WaitForAsync(service, batch, now => now.GradedCount > atStart || now.FinishTime is not null);
                resumes.Add(clock.Elapsed);
            }

            await WaitForAsync(service, batch, now => now.FinishTime is not null);
            var rest = await BatchFeed.ItemsAsync(service, batch);
            missing += items - rest.Count(item => item.State is BatchItem.Types.State.Graded or BatchItem.Types.State.Failed);
            missing += rest.Count(item => item.State == BatchItem.Types.State.Graded && item.Finding.Length == 0);
            twice += rest.Where(item => item.Finding.Length > 0).GroupBy(item => item.Finding).Count(group => group.Count() > 1);

            // Findings that no item knows of.
            var findings = CountFindings(folder.Path) - known;
            known += findings;
            twice += Math.Max(0, findings - rest.Count(item => item.Finding.Length > 0));
            figures.Say($"trial {trial + 1}", $"{rest.Count(item => item.State == BatchItem.Types.State.Failed)} failed, most attempts {rest.Max(item => item.AttemptCount)}");
        }

        figures.Say("kills", $"{killed} in {trials} trials of {items} items");
        figures.Say("going on after a kill, p50", $"{resumes.Percentile(0.5) / 1000:0.0} s");
        figures.AtMost("going on after a kill, longest", resumes.Percentile(1) / 1000, LongestResumeSeconds, "s");
        figures.AtMost("missing", missing, 0, "items");
        figures.AtMost("double", twice, 0, "findings");
        figures.AtLeast("kills in the middle of a batch", killed, trials, "");
    }

    private static async Task WaitForAsync(ServiceUnderTest service, string batch, Predicate<Batch> wanted)
    {
        while (!wanted(await service.Batches.GetBatchAsync(new GetBatchRequest { Name = $"batches/{batch}" })))
        {
            await Task.Delay(LookInterval);
        }
    }

    private static long CountFindings(string folder)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "coatscan.db")};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM findings";
        return (long)command.ExecuteScalar()!;
    }
}
