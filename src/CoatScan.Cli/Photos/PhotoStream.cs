using System.Runtime.CompilerServices;
using CoatScan.Cli.Connection;
using CoatScan.V1;

namespace CoatScan.Cli.Photos;

/// <summary>
/// Sends many photos to the service and hands the outcomes out in the order of the input: one for each photo, whatever
/// happens on the way.
/// </summary>
internal sealed class PhotoStream
{
    // A service that restarts is back within seconds; one that answers nothing three times is gone.
    private const int MostFruitlessRounds = 3;
    private static readonly TimeSpan PauseBetweenRounds = TimeSpan.FromMilliseconds(500);

    private readonly ServiceConnection _service;
    private readonly IReadOnlyList<PhotoPlace> _places;
    private readonly PanelFacts _facts;
    private readonly ZonePair? _zones;
    private readonly TaskCompletionSource<PhotoOutcome>?[] _outcomes;

    /// <summary>Prepares the run; nothing is read or sent yet.</summary>
    public PhotoStream(ServiceConnection service, IReadOnlyList<PhotoPlace> places, PanelFacts facts, ZonePair? zones)
    {
        _service = service;
        _places = places;
        _facts = facts;
        _zones = zones;
        _outcomes = new TaskCompletionSource<PhotoOutcome>?[places.Count];
        for (var index = 0; index < _outcomes.Length; index++)
        {
            _outcomes[index] = new(TaskCreationOptions.RunContinuationsAsynchronously);
        }
    }

    /// <summary>Whether the service went away during the run.</summary>
    public bool ServiceLost { get; private set; }

    /// <summary>The outcomes in the order of the photos, each as soon as it and those before it are known.</summary>
    public async IAsyncEnumerable<PhotoOutcome> RunAsync([EnumeratorCancellation] CancellationToken cancellationToken)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        var sending = SendAsync(stop.Token);
        try
        {
            for (var index = 0; index < _outcomes.Length; index++)
            {
                var outcome = _outcomes[index]!.Task;
                if (await Task.WhenAny(outcome, sending) == sending)
                {
                    // It ends early only by a fault or a stop; both come out here.
                    await sending;
                }

                yield return await outcome;

                // A finding that was handed out need not stay in memory until the last photo is done.
                Volatile.Write(ref _outcomes[index], null);
            }
        }
        finally
        {
            await stop.CancelAsync();
            await sending.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task SendAsync(CancellationToken cancellationToken)
    {
        IReadOnlyList<int> open = [.. Enumerable.Range(0, _places.Count)];
        var fruitless = 0;
        while (open.Count > 0)
        {
            var round = new StreamRound(_service, _places, _facts, _zones, Settle);
            var again = await round.RunAsync(open, cancellationToken);
            fruitless = again.Count < open.Count ? 0 : fruitless + 1;
            open = [.. again.Keys.Order()];
            if (fruitless == MostFruitlessRounds)
            {
                ServiceLost = round.Broken;
                foreach (var index in open)
                {
                    Settle(index, new(_places[index].Name, null, again[index]));
                }

                return;
            }

            if (open.Count > 0)
            {
                await Task.Delay(PauseBetweenRounds * (fruitless + 1), cancellationToken);
            }
        }
    }

    private void Settle(int index, PhotoOutcome outcome) =>
        Volatile.Read(ref _outcomes[index])?.TrySetResult(outcome);
}
