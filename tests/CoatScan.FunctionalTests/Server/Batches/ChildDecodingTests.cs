using System.Diagnostics;
using System.Globalization;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server.Batches;

/// <summary>Batches whose photos are decoded in child processes.</summary>
public sealed class ChildDecodingTests
{
    [Fact]
    public async Task Child_gives_the_finding_that_the_service_gives_and_refuses_what_it_refuses()
    {
        await using var server = await StartAsync();
        var name = await server.OpenBatchAsync(
            BatchSteps.Item("sound", "lot", await server.UploadAsync(Panels.Sound)),
            BatchSteps.Item("loss", "lot", await server.UploadAsync(Panels.FilmLoss)));
        await server.Batches.StartBatchAsync(new StartBatchRequest { Name = name });

        await server.WatchAsync(name);

        var items = (await server.Batches.ListBatchItemsAsync(new ListBatchItemsRequest { Parent = name })).Items;
        Assert.Equal(2, items.Count);
        Assert.NotEmpty(Children(server));
        foreach (var item in items)
        {
            // Made again by the decoder in this process.
            Assert.Equal(BatchItem.Types.State.Graded, item.State);
            var again = await server.Findings.VerifyFindingAsync(new VerifyFindingRequest { Name = item.Finding });
            Assert.Equal(VerifyFindingResponse.Types.Outcome.Same, again.Outcome);
        }
    }

    [Fact]
    public async Task Child_is_held_to_its_limits_by_the_kernel_and_ends_with_the_service()
    {
        Process child;
        await using (var server = await StartAsync(("CoatScan:Batches:ChildMemoryMb", "700"), ("CoatScan:Batches:ChildCpuSeconds", "7")))
        {
            await GradeAsync(server, Panels.Sound);
            child = Assert.Single(Children(server));

            var limits = await File.ReadAllLinesAsync($"/proc/{child.Id}/limits", TestContext.Current.CancellationToken);
            Assert.Equal(700L * 1024 * 1024, Soft(limits, "Max data size"));
            Assert.InRange(Soft(limits, "Max cpu time"), 7, 7 + 60);
        }

        await child.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Child_that_was_killed_costs_an_attempt_and_no_photo()
    {
        await using var server = await StartAsync();
        await GradeAsync(server, Panels.Sound);
        Assert.Single(Children(server)).Kill();

        var item = await GradeAsync(server, BatchSteps.Variant(Panels.Sound, 7));

        Assert.Equal(BatchItem.Types.State.Graded, item.State);
        Assert.InRange(item.AttemptCount, 1, 2);
    }

    private static Task<RunningServer> StartAsync(params (string Key, string Value)[] settings) => RunningServer.StartAsync(
        [("CoatScan:Batches:DecodeInChildren", "true"), ("CoatScan:Batches:Workers", "1"), .. settings]);

    private static async Task<BatchItem> GradeAsync(RunningServer server, byte[] photo)
    {
        var name = await server.OpenBatchAsync(BatchSteps.Item("one", "lot", await server.UploadAsync(photo)));
        await server.Batches.StartBatchAsync(new StartBatchRequest { Name = name });
        await server.WatchAsync(name);
        return Assert.Single((await server.Batches.ListBatchItemsAsync(new ListBatchItemsRequest { Parent = name })).Items);
    }

    // Other tests may run children of their own beside: each service marks its own by the path of its data.
    private static List<Process> Children(RunningServer server) =>
    [
        .. Directory.EnumerateDirectories("/proc")
            .Select(path => int.TryParse(Path.GetFileName(path), CultureInfo.InvariantCulture, out var id) ? id : 0)
            .Where(id => id > 0 && IsChildOf(server, id))
            .Select(Process.GetProcessById),
    ];

    private static bool IsChildOf(RunningServer server, int id)
    {
        try
        {
            return File.ReadAllText($"/proc/{id}/cmdline").Contains("decode-worker", StringComparison.Ordinal)
                && File.ReadAllText($"/proc/{id}/environ").Contains($"{RunningServer.ChildMark}={server.Folder}\0", StringComparison.Ordinal);
        }
        catch (IOException)
        {
            // It has ended meanwhile.
            return false;
        }
    }

    private static long Soft(string[] limits, string name) => long.Parse(
        limits.First(line => line.StartsWith(name, StringComparison.Ordinal))[name.Length..].Split(' ', StringSplitOptions.RemoveEmptyEntries)[0],
        CultureInfo.InvariantCulture);
}
