using CoatScan.Findings;
using CoatScan.Service.Batches;
using CoatScan.Service.Endpoints;
using CoatScan.Service.Options;
using Microsoft.Extensions.Time.Testing;
using MicrosoftOptions = Microsoft.Extensions.Options.Options;

namespace CoatScan.FunctionalTests.Server;

/// <summary>Who is let in, who waits and who is refused, with one worker and a clock of our own.</summary>
public sealed class AnalysisGateTests : IDisposable
{
    private readonly FakeTimeProvider _clock = new();
    private readonly TaskCompletionSource _firstMayEnd = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly AnalysisGate _gate;
    private int _begun;

    public AnalysisGateTests() => _gate = new AnalysisGate(
        MicrosoftOptions.Create(new AnalysisOptions { Workers = 1, QueueLength = 8 }),
        new BatchLane(MicrosoftOptions.Create(new BatchOptions()), _clock),
        new WaitEstimate(new Random(1)),
        _clock);

    public void Dispose()
    {
        _firstMayEnd.TrySetResult();
        _gate.Dispose();
    }

    [Fact]
    public async Task Large_photo_takes_the_room_of_four_ordinary_ones_in_the_queue()
    {
        var first = BlockAsync();

        var waiting = Enumerable.Range(0, 2).Select(_ => AskAsync(48)).ToList();
        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(12));

        Assert.Equal(ErrorReason.ServerBusy, refusal.Reason);
        Assert.Equal(("2", "96", "96"), (refusal.Metadata["waiting"], refusal.Metadata["waiting_megapixels"], refusal.Metadata["queue_megapixels"]));
        Assert.InRange(int.Parse(refusal.Metadata["retry_after_ms"], null), 200, 10_000);
        await EndAsync([first, .. waiting]);
    }

    [Fact]
    public async Task As_many_ordinary_photos_wait_as_there_are_places()
    {
        var first = BlockAsync();

        var waiting = Enumerable.Range(0, 8).Select(_ => AskAsync(12)).ToList();
        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(0.1));

        Assert.Equal(("8", "8"), (refusal.Metadata["waiting"], refusal.Metadata["queue_length"]));
        await EndAsync([first, .. waiting]);

        // The places are free again.
        Assert.True(await AskAsync(12));
    }

    [Fact]
    public async Task Photo_above_the_limit_may_wait_alone_and_small_ones_behind_it_are_refused()
    {
        var first = BlockAsync();

        var large = AskAsync(200);
        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(1));

        Assert.Equal("200", refusal.Metadata["waiting_megapixels"]);
        await EndAsync([first, large]);
    }

    [Fact]
    public async Task Stream_is_never_refused_and_yet_counts()
    {
        var first = BlockAsync();

        var streamed = Enumerable.Range(0, 12).Select(_ => _gate.RunWhenFreeAsync(Begin, Demand(12), default)).ToList();
        await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(12));

        await EndAsync([first, .. streamed]);
        Assert.Equal(12, _begun);
    }

    [Fact]
    public async Task Deadline_that_leaves_less_than_any_call_took_is_refused_before_work_begins()
    {
        await ServeAsync(TimeSpan.FromMilliseconds(700));
        await ServeAsync(TimeSpan.FromMilliseconds(400));

        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(12, TimeSpan.FromMilliseconds(399)));
        var served = await AskAsync(12, TimeSpan.FromMilliseconds(400));

        Assert.Equal(ErrorReason.DeadlineTooShort, refusal.Reason);
        Assert.Equal(("399", "400"), (refusal.Metadata["left_ms"], refusal.Metadata["needed_ms"]));
        Assert.True(served);
        Assert.Equal(1, _begun);
    }

    [Fact]
    public async Task Deadline_that_those_before_it_use_up_is_refused_at_once()
    {
        await ServeAsync(TimeSpan.FromMilliseconds(400));
        var first = BlockAsync();
        var waiting = Enumerable.Range(0, 3).Select(_ => AskAsync(12)).ToList();

        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(12, TimeSpan.FromMilliseconds(1599)));
        var patient = AskAsync(12, TimeSpan.FromMilliseconds(1600));

        Assert.Equal(("1599", "1600"), (refusal.Metadata["left_ms"], refusal.Metadata["needed_ms"]));
        await EndAsync([first, .. waiting, patient]);
    }

    [Fact]
    public async Task Deadline_that_ran_short_in_the_queue_is_dropped_when_its_turn_comes()
    {
        await ServeAsync(TimeSpan.FromMilliseconds(400));
        var first = BlockAsync();
        var waiting = AskAsync(12, TimeSpan.FromSeconds(5));
        _clock.Advance(TimeSpan.FromSeconds(4.7));
        _firstMayEnd.SetResult();

        var refusal = await Assert.ThrowsAsync<CoatScanException>(() => waiting);

        Assert.Equal(ErrorReason.DeadlineTooShort, refusal.Reason);
        Assert.Equal(0, _begun);
        await first;
        Assert.True(await AskAsync(12));
    }

    [Fact]
    public async Task Work_that_fails_tells_nothing_about_time()
    {
        await Assert.ThrowsAsync<InvalidOperationException>(() => _gate.RunAsync<bool>(
            () =>
            {
                _clock.Advance(TimeSpan.FromSeconds(9));
                throw new InvalidOperationException();
            },
            Demand(12),
            default));

        Assert.True(await AskAsync(12, TimeSpan.FromMilliseconds(1)));
    }

    [Fact]
    public async Task Delay_that_is_asked_for_follows_what_calls_waited()
    {
        var first = BlockAsync();
        var waiting = Enumerable.Range(0, 8).Select(_ => AskAsync(12)).ToList();
        var before = await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(12));
        _clock.Advance(TimeSpan.FromSeconds(4));
        _firstMayEnd.SetResult();
        await Task.WhenAll([first, .. waiting]);
        var again = new TaskCompletionSource();
        var second = _gate.RunAsync(() => Hold(again), Demand(12), default);
        waiting = [.. Enumerable.Range(0, 8).Select(_ => AskAsync(12))];

        var after = await Assert.ThrowsAsync<CoatScanException>(() => AskAsync(12));

        Assert.InRange(int.Parse(before.Metadata["retry_after_ms"], null), 200, 250);
        Assert.InRange(int.Parse(after.Metadata["retry_after_ms"], null), 4_000, 5_000);
        again.SetResult();
        await Task.WhenAll([second, .. waiting]);
    }

    private static bool Hold(TaskCompletionSource until)
    {
        ((IAsyncResult)until.Task).AsyncWaitHandle.WaitOne();
        return true;
    }

    private PhotoDemand Demand(double megapixels, TimeSpan? patience = null) =>
        new(megapixels, patience is { } wait ? (_clock.GetUtcNow() + wait).UtcDateTime : DateTime.MaxValue);

    private bool Begin() => Interlocked.Increment(ref _begun) > 0;

    private Task<bool> AskAsync(double megapixels, TimeSpan? patience = null) =>
        _gate.RunAsync(Begin, Demand(megapixels, patience), default);

    private Task<bool> BlockAsync() => _gate.RunAsync(() => Hold(_firstMayEnd), Demand(12), default);

    private Task<bool> ServeAsync(TimeSpan service) => _gate.RunAsync(
        () =>
        {
            _clock.Advance(service);
            return true;
        },
        Demand(12),
        default);

    private async Task EndAsync(IEnumerable<Task> calls)
    {
        _firstMayEnd.SetResult();
        await Task.WhenAll(calls);
    }
}
