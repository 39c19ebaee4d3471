using System.Globalization;
using CoatScan.Cli.Connection;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Photos;

/// <summary>Sends all photos as one panel. A photo that cannot be used is reported, the rest goes on.</summary>
internal sealed class PanelCall
{
    private readonly ServiceConnection _service;
    private readonly PanelFacts _facts;
    private readonly ZonePair? _zones;

    /// <summary>Prepares the call.</summary>
    public PanelCall(ServiceConnection service, PanelFacts facts, ZonePair? zones)
    {
        _service = service;
        _facts = facts;
        _zones = zones;
    }

    /// <summary>Whether the service went away during the call.</summary>
    public bool ServiceLost { get; private set; }

    /// <summary>The finding over all usable photos first, then one error for each photo that was left out.</summary>
    public async Task<IReadOnlyList<PhotoOutcome>> RunAsync(
        IReadOnlyList<PhotoPlace> places, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(places);
        var errors = new ServiceError?[places.Count];
        var usable = new List<(int Index, PhotoInput Photo)>();
        for (var index = 0; index < places.Count; index++)
        {
            var (photo, error) = await PhotoFile.ReadAsync(
                places[index], _service.Info.MaxInlineBytes, cancellationToken);
            errors[index] = error;
            if (photo is not null)
            {
                usable.Add((index, photo));
            }
        }

        Finding? finding = null;
        while (usable.Count > 0 && finding is null)
        {
            // The zones lie in the first photo; where that is left out, they have no photo.
            var request = new AnalyzePanelRequest { Facts = _facts, CompareZones = usable[0].Index == 0 ? _zones : null };
            request.Photos.AddRange(usable.Select(one => one.Photo));
            try
            {
                finding = await _service.Findings.AnalyzePanelAsync(
                    request, deadline: ServiceConnection.PhotoDeadline(), cancellationToken: cancellationToken);
            }
            catch (RpcException failure)
            {
                cancellationToken.ThrowIfCancellationRequested();
                ServiceLost = failure.StatusCode is StatusCode.Unavailable or StatusCode.DeadlineExceeded;
                LeaveOut(ServiceError.Of(failure), usable, errors);
            }
        }

        return Outcomes(places, finding, usable, errors);
    }

    private static void LeaveOut(ServiceError error, List<(int Index, PhotoInput Photo)> usable, ServiceError?[] errors)
    {
        if (PhotoAtFault(error.Field) is { } at && at < usable.Count)
        {
            errors[usable[at].Index] = error;
            usable.RemoveAt(at);
            return;
        }

        foreach (var (index, _) in usable)
        {
            errors[index] = error;
        }

        usable.Clear();
    }

    private static List<PhotoOutcome> Outcomes(
        IReadOnlyList<PhotoPlace> places,
        Finding? finding,
        List<(int Index, PhotoInput Photo)> usable,
        ServiceError?[] errors)
    {
        var outcomes = new List<PhotoOutcome>();
        if (finding is not null)
        {
            var first = places[usable[0].Index].Name;
            var name = usable.Count == 1
                ? first
                : string.Create(CultureInfo.InvariantCulture, $"{first} and {usable.Count - 1} more");
            outcomes.Add(new(name, finding, null) { Paths = [.. usable.Select(one => places[one.Index].Path)] });
        }

        for (var index = 0; index < places.Count; index++)
        {
            if (errors[index] is { } error)
            {
                outcomes.Add(new(places[index].Name, null, error));
            }
        }

        return outcomes;
    }

    // The service names a photo by its place in the request: photos[2].content.
    private static int? PhotoAtFault(string field)
    {
        const string Prefix = "photos[";
        var end = field.IndexOf(']', StringComparison.Ordinal);
        return field.StartsWith(Prefix, StringComparison.Ordinal)
            && end > 0
            && int.TryParse(
                field.AsSpan(Prefix.Length, end - Prefix.Length),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var index)
            ? index
            : null;
    }
}
