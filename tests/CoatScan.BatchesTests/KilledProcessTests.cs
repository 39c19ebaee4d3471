using System.Diagnostics;
using CoatScan.Batches;

namespace CoatScan.BatchesTests;

/// <summary>On one machine the ledger knows at once that a process was killed: the kernel gives its lock back.</summary>
public sealed class KilledProcessTests : IAsyncLifetime
{
    private static readonly TimeSpan Lease = TimeSpan.FromSeconds(8);
    private static readonly CancellationToken None = CancellationToken.None;

    private SqliteLedger _store = null!;

    private IBatchLedger Ledger => _store.Ledger;

    private string Workers => _store.Path + "-workers";

    public async ValueTask InitializeAsync()
    {
        _store = (SqliteLedger)await SqliteLedger.OpenAsync();
        await Ledger.CreateAsync("lots", "", null, None);
        await Ledger.AddItemsAsync("lots", Samples.Items(2), None);
        await Ledger.StartAsync("lots", null, None);
    }

    public ValueTask DisposeAsync() => _store.DisposeAsync();

    [Fact]
    public async Task What_a_killed_process_held_is_ready_at_once()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "flock is a program of Linux.");
        Directory.CreateDirectory(Workers);
        // A process of its own that holds the lock as a worker does.
        using var other = Process.Start("flock", ["--exclusive", "--no-fork", Path.Combine(Workers, "other"), "sleep", "600"]);
        using var own = Ledger.SignOn("own");
        try
        {
            await UntilAsync(() => IsHeld("other"));
            var claim = await ClaimAsync("other");
            Assert.Equal(0, await Ledger.SweepAsync(None));

            other.Kill();
            await other.WaitForExitAsync(TestContext.Current.CancellationToken);

            Assert.Equal(1, await Ledger.SweepAsync(None));
            var ready = await Ledger.ListReadyAsync(5, None);
            Assert.Contains(ready, one => one.Item == claim.Item && one.Suspect);
            Assert.False(await Ledger.FinishAsync(claim, Samples.Graded("late"), None));
            Assert.Equal(["own"], Directory.GetFiles(Workers).Select(Path.GetFileName));
        }
        finally
        {
            other.Kill();
        }
    }

    [Fact]
    public async Task What_the_killed_predecessor_held_is_ready_at_the_start()
    {
        await ClaimAsync("predecessor");
        Directory.CreateDirectory(Workers);
        await File.WriteAllTextAsync(Path.Combine(Workers, "predecessor"), "", None);

        var grader = new FakeGrader(_ => Task.CompletedTask);
        await using var engine = new BatchEngine(
            Ledger,
            grader,
            new ChannelHandOut(1, TimeProvider.System),
            _store.Tenants,
            new BatchEngineSettings("successor", 1) { LookInterval = TimeSpan.FromMilliseconds(20) },
            TimeProvider.System,
            _ => { });
        engine.Start();

        // The ledger's clock stands: no lease runs out.
        await UntilAsync(() => grader.Count == 2);
        await engine.StopAsync();
        Assert.Equal(2, (await Ledger.GetAsync("lots", None)).GradedCount);
    }

    [Fact]
    public async Task What_a_process_holds_that_nothing_is_known_of_waits_for_its_lease()
    {
        await ClaimAsync("unknown");
        using var own = Ledger.SignOn("own");

        Assert.Equal(0, await Ledger.SweepAsync(None));
        _store.Clock.Advance(Lease + TimeSpan.FromSeconds(1));
        Assert.Equal(1, await Ledger.SweepAsync(None));
    }

    [Fact]
    public async Task Process_that_lives_keeps_its_item_while_another_sweeps_and_leaves_no_file()
    {
        var another = await _store.OpenAnotherAsync();
        using (var own = Ledger.SignOn("own"))
        {
            await ClaimAsync("own");
            Assert.Equal(0, await another.SweepAsync(None));
            Assert.Equal(0, await Ledger.SweepAsync(None));
        }

        Assert.Empty(Directory.GetFiles(Workers));
        Assert.Equal(0, await another.SweepAsync(None));
    }

    private bool IsHeld(string worker)
    {
        try
        {
            using var file = new FileStream(Path.Combine(Workers, worker), FileMode.Open, FileAccess.ReadWrite, FileShare.None);
            return false;
        }
        catch (FileNotFoundException)
        {
            return false;
        }
        catch (IOException)
        {
            return true;
        }
    }

    private async Task<ItemClaim> ClaimAsync(string worker) =>
        (await Ledger.ClaimAsync((await Ledger.ListReadyAsync(1, None))[0].Item, worker, Lease, None))!;

    private static async Task UntilAsync(Func<bool> holds)
    {
        while (!holds())
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }
}
