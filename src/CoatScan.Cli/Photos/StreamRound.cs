using System.Globalization;
using CoatScan.Cli.Connection;
using CoatScan.Client;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Photos;

/// <summary>One two-way stream: sends photos with few in flight and settles each as its answer comes.</summary>
internal sealed class StreamRound
{
    /// <summary>Photos read and sent but not answered yet. Bounds the memory of the client.</summary>
    public const int MostInFlight = 4;

    // Every photo in flight may take its full time behind the others.
    private static readonly TimeSpan LongestSilence = CoatScanChannel.PhotoDeadline * MostInFlight;

    private readonly ServiceConnection _service;
    private readonly IReadOnlyList<PhotoPlace> _places;
    private readonly PanelFacts _facts;
    private readonly ZonePair? _zones;
    private readonly Action<int, PhotoOutcome> _settle;
    private readonly Lock _gate = new();
    private readonly HashSet<int> _unsent = [];
    private readonly HashSet<int> _unanswered = [];
    private readonly Dictionary<int, ServiceError> _again = [];

    /// <summary>Prepares a round.</summary>
    /// <param name="service">Where to send.</param>
    /// <param name="places">All photos of the run.</param>
    /// <param name="facts">What the caller knows about each panel.</param>
    /// <param name="zones">Zones to compare in each photo; null for none.</param>
    /// <param name="settle">Called once for each photo whose outcome is final.</param>
    public StreamRound(
        ServiceConnection service,
        IReadOnlyList<PhotoPlace> places,
        PanelFacts facts,
        ZonePair? zones,
        Action<int, PhotoOutcome> settle)
    {
        _service = service;
        _places = places;
        _facts = facts;
        _zones = zones;
        _settle = settle;
    }

    /// <summary>Whether the stream ended before all photos were answered.</summary>
    public bool Broken { get; private set; }

    /// <summary>Runs the round.</summary>
    /// <param name="indices">Which of the photos to send, in this order.</param>
    /// <param name="cancellationToken">Stops the round.</param>
    /// <returns>The photos worth another round, each with the error that it met in this one.</returns>
    public async Task<IReadOnlyDictionary<int, ServiceError>> RunAsync(
        IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        _unsent.UnionWith(indices);
        using var room = new SemaphoreSlim(MostInFlight);
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        ended.CancelAfter(LongestSilence);
        using var call = _service.Findings.AnalyzePhotos(cancellationToken: ended.Token);
        var sending = SendAsync(call.RequestStream, indices, room, ended);
        var failure = await ReceiveAsync(call.ResponseStream, room, ended);
        await ended.CancelAsync();
        try
        {
            await sending;
        }
        catch (Exception fault) when (fault is OperationCanceledException or RpcException or InvalidOperationException)
        {
            // The sender stumbles over the end of the call; how it ended is what the receiver saw.
        }

        cancellationToken.ThrowIfCancellationRequested();
        SettleRest(failure);
        return _again;
    }

    private async Task SendAsync(
        IClientStreamWriter<AnalyzePhotosRequest> requests,
        IReadOnlyList<int> indices,
        SemaphoreSlim room,
        CancellationTokenSource ended)
    {
        try
        {
            foreach (var index in indices)
            {
                await room.WaitAsync(ended.Token);
                var (photo, error) = await PhotoFile.ReadAsync(
                    _places[index], _service.Info.MaxInlineBytes, ended.Token);
                if (error is not null)
                {
                    Take(index);
                    _settle(index, new(_places[index].Name, null, error));
                    room.Release();
                    continue;
                }

                lock (_gate)
                {
                    _unsent.Remove(index);
                    _unanswered.Add(index);
                }

                ended.CancelAfter(LongestSilence);
                await requests.WriteAsync(
                    new()
                    {
                        Key = index.ToString(CultureInfo.InvariantCulture),
                        Photo = photo,
                        Facts = _facts,
                        CompareZones = _zones,
                    },
                    ended.Token);
            }

            await requests.CompleteAsync();
        }
        catch
        {
            // Without this the receiver would wait for answers to photos that were never sent.
            await ended.CancelAsync();
            throw;
        }
    }

    private async Task<ServiceError?> ReceiveAsync(
        IAsyncStreamReader<AnalyzePhotosResponse> responses, SemaphoreSlim room, CancellationTokenSource ended)
    {
        try
        {
            while (await responses.MoveNext(ended.Token))
            {
                ended.CancelAfter(LongestSilence);
                var answer = responses.Current;
                if (!int.TryParse(answer.Key, NumberStyles.None, CultureInfo.InvariantCulture, out var index)
                    || !Take(index))
                {
                    continue;
                }

                Note(index, answer);
                room.Release();
            }

            return null;
        }
        catch (RpcException failure) when (failure.StatusCode != StatusCode.Cancelled)
        {
            return ServiceError.Of(failure);
        }
        catch (Exception failure) when (failure is RpcException or OperationCanceledException)
        {
            return new("DEADLINE_EXCEEDED", "DEADLINE_EXCEEDED", $"No answer from {_service.Where} in time.");
        }
    }

    private void Note(int index, AnalyzePhotosResponse answer)
    {
        if (answer.OutcomeCase == AnalyzePhotosResponse.OutcomeOneofCase.Finding)
        {
            _settle(index, new(_places[index].Name, answer.Finding, null) { Paths = [_places[index].Path] });
            return;
        }

        var error = ServiceError.Of(answer.Error);
        if (IsTransient(error))
        {
            _again[index] = error;
        }
        else
        {
            _settle(index, new(_places[index].Name, null, error));
        }
    }

    private void SettleRest(ServiceError? failure)
    {
        Broken = _unsent.Count + _unanswered.Count > 0;
        var error = failure
            ?? new("UNAVAILABLE", "UNAVAILABLE", $"The connection to {_service.Where} ended without an answer.");
        foreach (var index in _unanswered)
        {
            if (IsTransient(error))
            {
                _again[index] = error;
            }
            else
            {
                // One of these may be what broke the stream; the photos after them shall not suffer for it.
                _settle(index, new(_places[index].Name, null, error));
            }
        }

        foreach (var index in _unsent)
        {
            _again[index] = error;
        }
    }

    private bool Take(int index)
    {
        lock (_gate)
        {
            return _unanswered.Remove(index) || _unsent.Remove(index);
        }
    }

    private static bool IsTransient(ServiceError error) =>
        error.Code is "UNAVAILABLE" or "RESOURCE_EXHAUSTED" or "DEADLINE_EXCEEDED";
}
