using System.Diagnostics;
using CoatScan.Client;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.StressTests.Trials;

/// <summary>Bar M1: what a long mixed load leaves behind. With a planted leak the same check has to fail.</summary>
internal static class MemoryTrial
{
    private const double MostGrowthMb = 100;
    private const int SamplesOfWindow = 20;

    private static readonly TimeSpan SampleInterval = TimeSpan.FromSeconds(1);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var time = TimeSpan.FromMinutes(options.Number("minutes", 60));
        var warmUp = TimeSpan.FromMinutes(options.Number("warm-up-minutes", 5));
        using var folder = new TemporaryFolder();
        await using var service = await ServiceUnderTest.StartOwnAsync(folder.Path, options.Has("plant-leak") ? warmUp : null);
        var clock = Stopwatch.StartNew();
        var goesOn = true;
        var load = LoadAsync(service, () => Volatile.Read(ref goesOn));

        var samples = new List<double>();
        while (clock.Elapsed < warmUp + time && !load.IsFaulted && !HasRunAway(samples))
        {
            await Task.Delay(SampleInterval);
            if (clock.Elapsed >= warmUp)
            {
                samples.Add(service.ResidentMb);
            }
        }

        Volatile.Write(ref goesOn, false);
        var calls = await load;
        var window = Math.Min(SamplesOfWindow, Math.Max(1, samples.Count / 3));
        var (start, end) = (Median(samples.Take(window)), Median(samples.TakeLast(window)));
        figures.Say("mixed calls", $"{calls}");
        figures.Say("memory after warm-up, median", $"{start:0} MB");
        figures.Say("memory at the end, median", $"{end:0} MB");
        figures.Say("memory, most", $"{samples.Max():0} MB");
        figures.AtMost("growth", end - start, MostGrowthMb, "MB");
        figures.AtLeast("calls", calls, 10, "");
    }

    // Far beyond the bar there is nothing more to learn, and other programs need the memory.
    private static bool HasRunAway(List<double> samples) =>
        samples.Count > 2 * SamplesOfWindow && samples[^1] - Median(samples.Take(SamplesOfWindow)) > 5 * MostGrowthMb;

    private static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted[sorted.Count / 2];
    }

    // What people do, one after the other: every kind of call, also such as is refused.
    private static async Task<int> LoadAsync(ServiceUnderTest service, Func<bool> goesOn)
    {
        var uploader = new PhotoUploader(service.Photos);
        var calls = 0;
        for (var i = 0; goesOn(); i++)
        {
            var photo = StressPhotos.Variant(i % 4 == 0 ? StressPhotos.Ordinary : StressPhotos.Small, i);
            var finding = await service.Findings.AnalyzePhotoAsync(StressPhotos.Request(photo));
            using var content = new MemoryStream(photo);
            var stored = await uploader.UploadAsync(content);
            var named = await service.Findings.AnalyzePhotoAsync(new AnalyzePhotoRequest { Photo = new PhotoInput { Photo = stored.Name } });
            await service.Findings.VerifyFindingAsync(new VerifyFindingRequest { Name = named.Name });
            await service.Findings.GetFindingAsync(new GetFindingRequest { Name = finding.Name });
            await service.Findings.ListFindingsAsync(new ListFindingsRequest { PageSize = 20 });
            await service.Findings.RankCausesAsync(new RankCausesRequest { Facts = new PanelFacts { Evidence = { "form.domes" } } });
            await RefusedAsync(service);
            using var page = await service.Http.GetAsync("/");
            using var json = await service.Http.GetAsync("/v1/serverInfo");
            calls += 10;
            if (i % 10 == 0)
            {
                await BatchFeed.StartAsync(service, $"mixed-{i}", [stored.Name], 5);
                await service.Findings.DeleteFindingAsync(new DeleteFindingRequest { Name = finding.Name });
            }
        }

        return calls;
    }

    private static async Task RefusedAsync(ServiceUnderTest service)
    {
        try
        {
            await service.Findings.AnalyzePhotoAsync(StressPhotos.Request([1, 2, 3]));
        }
        catch (RpcException e) when (e.StatusCode == StatusCode.InvalidArgument)
        {
            // As it should be.
        }
    }
}
