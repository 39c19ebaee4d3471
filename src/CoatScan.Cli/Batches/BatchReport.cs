using System.Runtime.CompilerServices;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Json;
using CoatScan.V1;

namespace CoatScan.Cli.Batches;

/// <summary>Reads what became of a batch, page by page, so that a large one needs no large memory.</summary>
internal sealed class BatchReport(ServiceConnection service, BatchPlan plan, BatchUpload upload)
{
    private readonly Dictionary<string, PlannedPanel> _byKey = plan.Panels.ToDictionary(panel => panel.Key);

    /// <summary>Photos that the service refused or that cannot be read, in the order of the folder.</summary>
    public IEnumerable<(string Name, ServiceError Error)> Refused => plan.Panels
        .SelectMany(panel => panel.Photos)
        .Where(photo => upload.ErrorOf(photo) is not null)
        .Select(photo => (photo.Place.Name, upload.ErrorOf(photo)!));

    /// <summary>One line of JSON for each panel, in the order of the folder, then one for each refused photo.</summary>
    /// <param name="started">Whether there is a batch; there is none when every photo was refused.</param>
    /// <param name="cancellationToken">Stops reading.</param>
    public async IAsyncEnumerable<string> LinesAsync(
        bool started, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        if (started)
        {
            await foreach (var line in ItemLinesAsync(cancellationToken))
            {
                yield return line;
            }
        }

        foreach (var (name, error) in Refused)
        {
            yield return ErrorJson.Line(error, "photo", name);
        }
    }

    /// <summary>The vehicles, worst first.</summary>
    public async Task<IReadOnlyList<VehicleSummary>> VehiclesAsync(CancellationToken cancellationToken)
    {
        var vehicles = new List<VehicleSummary>();
        var request = new ListBatchVehiclesRequest { Parent = plan.Name, PageSize = 500 };
        do
        {
            var page = await service.Batches.ListBatchVehiclesAsync(
                request, deadline: ServiceConnection.PhotoDeadline(), cancellationToken: cancellationToken);
            vehicles.AddRange(page.Vehicles);
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);

        return vehicles;
    }

    /// <summary>A panel as the user knows it: by its folder, or by its photo where it has none.</summary>
    /// <param name="itemName">Name of the item.</param>
    public string NameOf(string itemName)
    {
        var key = itemName[(itemName.LastIndexOf('/') + 1)..];
        return _byKey.TryGetValue(key, out var panel) ? panel.Panel.Name : key;
    }

    /// <summary>Files of a panel's photos.</summary>
    /// <param name="itemName">Name of the item.</param>
    public IReadOnlyList<string> PhotosOf(string itemName) =>
        _byKey.TryGetValue(itemName[(itemName.LastIndexOf('/') + 1)..], out var panel) ? [.. panel.Photos.Select(photo => photo.Place.Path)] : [];

    /// <summary>A finding of the batch.</summary>
    public async Task<Finding> FindingAsync(string name, CancellationToken cancellationToken) => await service.Findings.GetFindingAsync(
        new GetFindingRequest { Name = name }, deadline: ServiceConnection.PhotoDeadline(), cancellationToken: cancellationToken);

    private async IAsyncEnumerable<string> ItemLinesAsync([EnumeratorCancellation] CancellationToken cancellationToken)
    {
        var request = new ListBatchItemsRequest { Parent = plan.Name, PageSize = 1000 };
        do
        {
            var page = await service.Batches.ListBatchItemsAsync(
                request, deadline: ServiceConnection.PhotoDeadline(), cancellationToken: cancellationToken);
            foreach (var item in page.Items)
            {
                yield return item.State == BatchItem.Types.State.Graded
                    ? MessageJson.Line(await FindingAsync(item.Finding, cancellationToken))
                    : ErrorJson.Line(ErrorOf(item), "photo", NameOf(item.Name));
            }

            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
    }

    private static ServiceError ErrorOf(BatchItem item) => item.Error is { } error
        ? ServiceError.Of(error)
        : new("CANCELLED", "CANCELLED", "The batch was cancelled before the panel was graded.");
}
