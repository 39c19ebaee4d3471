using System.Security.Cryptography;
using System.Text;
using CoatScan.V1;

namespace CoatScan.Cli.Batches;

/// <summary>
/// What is to be graded. Batch and items are named after their content, so that the same command finds the same batch
/// again: the same photos in the same places, judged by the same service, model and knowledge.
/// </summary>
internal sealed class BatchPlan
{
    private const int KeyLength = 40;

    private BatchPlan(string batchId, IReadOnlyList<PlannedPanel> panels)
    {
        BatchId = batchId;
        Panels = panels;
    }

    /// <summary>Id of the batch.</summary>
    public string BatchId { get; }

    /// <summary>Name of the batch.</summary>
    public string Name => $"batches/{BatchId}";

    /// <summary>Its panels, in the order of the folder.</summary>
    public IReadOnlyList<PlannedPanel> Panels { get; }

    /// <summary>Reads all photos once.</summary>
    /// <param name="panels">The panels of the folder.</param>
    /// <param name="service">Who is going to judge them.</param>
    /// <param name="cancellationToken">Stops reading.</param>
    public static async Task<BatchPlan> MakeAsync(
        IReadOnlyList<PanelPhotos> panels, ServerInfo service, CancellationToken cancellationToken)
    {
        var planned = new List<PlannedPanel>(panels.Count);
        foreach (var panel in panels)
        {
            var photos = new List<DigestedPhoto>(panel.Photos.Count);
            foreach (var place in panel.Photos)
            {
                photos.Add(await DigestedPhoto.OfAsync(place, cancellationToken));
            }

            var content = photos.Select(photo => $"{photo.Place.Name}\n{photo.Sha256}");
            planned.Add(new PlannedPanel(Hash([panel.Vehicle, panel.Panel, .. content]), panel, photos));
        }

        var versions = new[]
        {
            service.ServiceVersion, service.ModelSha256, service.KnowledgeVersion, service.MetricSetVersion,
        };
        return new BatchPlan($"folder-{Hash([.. versions, .. planned.Select(panel => panel.Key)])}", planned);
    }

    private static string Hash(IEnumerable<string> parts) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\0', parts))))[..KeyLength];
}
