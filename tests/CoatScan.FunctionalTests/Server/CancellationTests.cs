using System.Diagnostics;
using CoatScan.Findings;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Imaging;
using CoatScan.Inspection;
using Grpc.Core;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.FunctionalTests.Server;

/// <summary>Work that nobody waits for any more stops: counted in stages begun after the end, not in time.</summary>
public sealed class CancellationTests
{
    private const int PhotoCount = 3;
    private const int StagesOfPhoto = 3;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Inspection_cancelled_anywhere_begins_at_most_the_stage_that_finds_out()
    {
        await using var server = await RunningServer.StartAsync();
        var inspector = server.Application.Services.GetRequiredService<PanelInspector>();
        var photos = Enumerable.Range(0, PhotoCount).Select(i => new PhotoBytes(Panels.Sound, "", $"photos[{i}]")).ToList();
        for (var cancelAfter = 1; cancelAfter <= PhotoCount * StagesOfPhoto; cancelAfter++)
        {
            using var stop = new CancellationTokenSource();
            var (ended, begunLater) = (0, new List<string>());
            using var listener = Listen(
                begun: stage =>
                {
                    if (stop.IsCancellationRequested)
                    {
                        begunLater.Add(stage);
                    }
                },
                ended: () =>
                {
                    if (++ended == cancelAfter)
                    {
                        stop.Cancel();
                    }
                });

            Assert.ThrowsAny<OperationCanceledException>(() => inspector.InspectPhotos(photos, new PanelFacts(), zones: null, stop.Token));

            Assert.True(begunLater.Count <= 1, $"after {cancelAfter} stages: {string.Join(' ', begunLater)}");
            Assert.DoesNotContain("diagnose", begunLater);
        }
    }

    [Fact]
    public async Task Call_whose_deadline_passes_gives_its_worker_and_its_memory_back()
    {
        await using var server = await RunningServer.StartAsync(
            ("CoatScan:Analysis:Workers", "1"), ("CoatScan:Analysis:QueueLength", "0"));
        var gate = server.Application.Services.GetRequiredService<MegapixelGate>();

        for (var i = 0; i < 3; i++)
        {
            var error = await Assert.ThrowsAsync<RpcException>(async () => await server.Findings.AnalyzePhotoAsync(
                new() { Photo = Panels.Input(Panels.Large()) },
                deadline: TimeProvider.System.GetUtcNow().AddMilliseconds(40 * (i + 1)).UtcDateTime));
            Assert.True(error.StatusCode is StatusCode.DeadlineExceeded or StatusCode.ResourceExhausted, $"{error.Status}");
        }

        // With no place to wait, the next call is served only if the worker is free again.
        V1.Finding? finding = null;
        while (finding is null)
        {
            try
            {
                finding = await server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.Sound) }, cancellationToken: Token);
            }
            catch (RpcException e) when (e.StatusCode == StatusCode.ResourceExhausted)
            {
                await Task.Delay(20, Token);
            }
        }

        Assert.Equal(0, gate.InFlightMegapixels);
        Assert.Single((await server.Findings.ListFindingsAsync(new())).Findings);
    }

    // Only of the work that this test starts: others go on beside it.
    private static ActivityListener Listen(Action<string> begun, Action ended)
    {
        var own = new AsyncLocal<bool> { Value = true };
        var listener = new ActivityListener
        {
            ShouldListenTo = source => source.Name == InspectionTelemetry.SourceName,
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllData,
            ActivityStarted = activity =>
            {
                if (own.Value)
                {
                    begun(activity.OperationName);
                }
            },
            ActivityStopped = _ =>
            {
                if (own.Value)
                {
                    ended();
                }
            },
        };
        ActivitySource.AddActivityListener(listener);
        return listener;
    }
}
