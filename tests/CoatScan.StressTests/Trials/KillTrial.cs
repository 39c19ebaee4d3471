using System.Diagnostics;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.StressTests.Trials;

/// <summary>
/// Services are killed at random moments in the middle of batches, and database and broker where there are any: what is
/// missing, what is there twice, how soon it goes on.
/// </summary>
internal static class KillTrial
{
    private const double LongestResumeSeconds = 10;

    private static readonly TimeSpan LookInterval = TimeSpan.FromMilliseconds(50);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var (trials, items, kills) = (options.Whole("trials", 25), options.Whole("items", 500), options.Whole("kills", 4));
        var random = new Random(options.Whole("seed", 1));
        await using var ground = options.Has("shared") ? await KillGround.SharedAsync() : await KillGround.SqliteAsync();
        var photos = await BatchFeed.UploadAsync(ground.Services[0], items);
        var (resumes, starts, restarts) = (new Latencies(), new Latencies(), new Latencies());
        long missing = 0, twice = 0, killed = 0, known = 0;
        for (var trial = 0; trial < trials; trial++)
        {
            var batch = $"kills-{trial}";
            await BatchFeed.StartAsync(ground.Services[0], batch, photos, items);
            for (var kill = 0; kill < kills; kill++)
            {
                var victim = ground.Services[random.Next(ground.Services.Count)];

                // Spread over the batch, at moments that have nothing to do with what it is doing then.
                await WaitForAsync(victim, batch, now => now.FinishTime is not null || now.GradedCount >= items * (kill + 0.5) / (kills + 1));
                await Task.Delay(random.Next(0, 1000));
                if ((await BatchAsync(victim, batch)).FinishTime is not null)
                {
                    break;
                }

                await victim.KillAsync();
                killed++;
                var clock = Stopwatch.StartNew();
                var left = ground.Services.FirstOrDefault(service => service != victim);
                if (left is null)
                {
                    await victim.RestartAsync();
                    starts.Add(clock.Elapsed);
                }

                await GoesOnAsync(left ?? victim, batch);
                resumes.Add(clock.Elapsed);
                if (left is not null)
                {
                    await victim.RestartAsync();
                }

                if (kill == kills / 2)
                {
                    foreach (var restart in ground.Restarts)
                    {
                        await restart();
                        clock.Restart();
                        await GoesOnAsync(victim, batch);
                        restarts.Add(clock.Elapsed);
                    }
                }
            }

            await WaitForAsync(ground.Services[0], batch, now => now.FinishTime is not null);
            var rest = await BatchFeed.ItemsAsync(ground.Services[0], batch);
            missing += items - rest.Count(item => item.State is BatchItem.Types.State.Graded or BatchItem.Types.State.Failed);
            missing += rest.Count(item => item.State == BatchItem.Types.State.Graded && item.Finding.Length == 0);
            twice += rest.Where(item => item.Finding.Length > 0).GroupBy(item => item.Finding).Count(group => group.Count() > 1);

            // Findings that no item knows of.
            var findings = await ground.CountFindingsAsync() - known;
            known += findings;
            twice += Math.Max(0, findings - rest.Count(item => item.Finding.Length > 0));
            figures.Say($"trial {trial + 1}", $"{rest.Count(item => item.State == BatchItem.Types.State.Failed)} failed, most attempts {rest.Max(item => item.AttemptCount)}");
        }

        figures.Say("kills", $"{killed} in {trials} trials of {items} items");
        figures.Say("going on after each kill", $"{resumes.AllSeconds} s");
        figures.Say("going on after a kill, p50", $"{resumes.Percentile(0.5) / 1000:0.0} s");
        figures.AtMost("going on after a kill, longest", resumes.Percentile(1) / 1000, LongestResumeSeconds, "s");
        if (ground.Restarts.Count == 0)
        {
            // How long a program takes to start says much of the machine and its load, little of what was killed.
            figures.Say("of it until the service is ready, p50", $"{starts.Percentile(0.5) / 1000:0.0} s");
            figures.Say("of it until the service is ready, longest", $"{starts.Percentile(1) / 1000:0.0} s");
        }
        else
        {
            figures.Say("going on after each restart of database and broker", $"{restarts.AllSeconds} s");
            figures.AtMost("going on after database or broker is back, longest", restarts.Percentile(1) / 1000, LongestResumeSeconds, "s");
        }

        figures.AtMost("missing", missing, 0, "items");
        figures.AtMost("double", twice, 0, "findings");
        figures.AtLeast("kills in the middle of a batch", killed, trials, "");
    }

    /// <summary>Waits until one more item is graded, or all are at rest.</summary>
    private static async Task GoesOnAsync(ServiceUnderTest service, string batch)
    {
        var graded = -1;
        await WaitForAsync(service, batch, now =>
        {
            graded = graded < 0 ? now.GradedCount : graded;
            return now.GradedCount > graded || now.FinishTime is not null;
        });
    }

    private static async Task WaitForAsync(ServiceUnderTest service, string batch, Predicate<Batch> wanted)
    {
        while (!wanted(await BatchAsync(service, batch)))
        {
            await Task.Delay(LookInterval);
        }
    }

    // While the database is away the service says so, and is asked again.
    private static async Task<Batch> BatchAsync(ServiceUnderTest service, string batch)
    {
        while (true)
        {
            try
            {
                return await service.Batches.GetBatchAsync(new GetBatchRequest { Name = $"batches/{batch}" });
            }
            catch (RpcException away) when (away.StatusCode is StatusCode.Unavailable or StatusCode.DeadlineExceeded)
            {
                await Task.Delay(LookInterval);
            }
        }
    }
}
