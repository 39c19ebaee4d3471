using System.Diagnostics;
using System.Diagnostics.Metrics;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary><c>coatscan batch</c> that is killed and started again, against a service that lives on (bar B7).</summary>
public sealed class KilledBatchCommandTests : IDisposable
{
    private const int Count = 12;

    private readonly TempFolder _folder = new();

    private string Lots => Path.Combine(_folder.Path, "lots");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Command_killed_while_it_sends_and_while_it_waits_sends_only_what_is_missing()
    {
        for (var i = 0; i < Count; i++)
        {
            _folder.Write($"lots/lot-{i / 3}/{i}.jpg", BatchSteps.Variant(Panels.Sound, 50_000 + i));
        }

        await using var server = await RunningServer.StartAsync();
        using var uploads = new UploadCount(server);
        var killedAt = new List<int>();
        foreach (var stored in new[] { 1, 4, 9 })
        {
            await KillWhenAsync(server, () => uploads.Done >= stored);
            killedAt.Add(uploads.Done);
        }

        // All that was stored before a kill is not sent again; what was on its way may be sent a second time.
        await KillWhenAsync(server, () => HasBatch(server));
        var sentBeforeLastRun = uploads.Done;
        var last = await RunAsync(server);

        Assert.Equal((0, sentBeforeLastRun), (last, uploads.Done));
        Assert.True(killedAt[0] < Count, "The command was done before it was killed.");
        Assert.InRange(uploads.Done, Count, Count + (4 * (killedAt.Count + 1)));
        var batch = Assert.Single((await server.Batches.ListBatchesAsync(new ListBatchesRequest())).Batches);
        Assert.Equal((Count, Count, 0), (batch.ItemCount, batch.GradedCount, batch.FailedCount));
        Assert.Equal(Count, (await server.Findings.ListFindingsAsync(new ListFindingsRequest { PageSize = 500 })).Findings.Count);
    }

    private static bool HasBatch(RunningServer server) => server.Batches.ListBatches(new ListBatchesRequest()).Batches.Count > 0;

    private async Task KillWhenAsync(RunningServer server, Func<bool> isTime)
    {
        using var command = Start(server);
        while (!isTime() && !command.HasExited)
        {
            await Task.Delay(5, TestContext.Current.CancellationToken);
        }

        command.Kill(entireProcessTree: true);
        await command.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    private async Task<int> RunAsync(RunningServer server)
    {
        using var command = Start(server);
        await command.WaitForExitAsync(TestContext.Current.CancellationToken);
        return command.ExitCode;
    }

    private Process Start(RunningServer server)
    {
        var command = Process.Start(new ProcessStartInfo(
            "dotnet", [Path.Combine(AppContext.BaseDirectory, "coatscan.dll"), "batch", Lots, "--server", server.GrpcAddress.ToString()])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        command.OutputDataReceived += (_, _) => { };
        command.ErrorDataReceived += (_, _) => { };
        command.BeginOutputReadLine();
        command.BeginErrorReadLine();
        return command;
    }

    /// <summary>Counts uploads that the server of this test took to their end, by its own metrics.</summary>
    private sealed class UploadCount : IDisposable
    {
        private readonly MeterListener _listener = new();
        private int _done;

        public UploadCount(RunningServer server)
        {
            // Other tests have servers of their own beside.
            var own = server.Application.Services.GetRequiredService<IMeterFactory>();
            _listener.InstrumentPublished = (instrument, listener) =>
            {
                if (instrument.Name == "http.server.request.duration" && instrument.Meter.Scope == own)
                {
                    listener.EnableMeasurementEvents(instrument);
                }
            };
            _listener.SetMeasurementEventCallback<double>((_, _, tags, _) => Count(tags));
            _listener.Start();
        }

        public int Done => Volatile.Read(ref _done);

        public void Dispose() => _listener.Dispose();

        private void Count(ReadOnlySpan<KeyValuePair<string, object?>> tags)
        {
            foreach (var tag in tags)
            {
                if (tag is { Key: "http.route", Value: string route } && route.EndsWith("PhotoService/UploadPhoto", StringComparison.Ordinal))
                {
                    Interlocked.Increment(ref _done);
                }
            }
        }
    }
}
