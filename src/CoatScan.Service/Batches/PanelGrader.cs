using CoatScan.Batches;
using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Service.Endpoints;
using CoatScan.Storage.Photos;

namespace CoatScan.Service.Batches;

/// <summary>Makes the finding of an item from its stored photos.</summary>
internal sealed class PanelGrader(
    PanelInspector inspector, KnowledgeBase knowledge, PhotoStore photos, SeenBefore seenBefore, BatchLane lane)
    : IItemGrader
{
    /// <inheritdoc/>
    public async Task<GradedItem> GradeAsync(NewItem item, CancellationToken cancellationToken)
    {
        var panel = new List<PhotoBytes>(item.Photos.Count);
        for (var index = 0; index < item.Photos.Count; index++)
        {
            panel.Add(await ReadAsync(item.Photos[index], $"photos[{index}]", cancellationToken).ConfigureAwait(false));
        }

        var finding = await lane.RunAsync(
            () => inspector.InspectPhotos(panel, item.Facts, zones: null, cancellationToken), cancellationToken)
            .ConfigureAwait(false);
        return new GradedItem(finding, PanelSummary.Of(finding, knowledge)) { Look = seenBefore.Look };
    }

    private async Task<PhotoBytes> ReadAsync(string name, string field, CancellationToken cancellationToken)
    {
        try
        {
            var photo = await photos.FindAsync(PhotoName.DigestOf(name), cancellationToken).ConfigureAwait(false);

            // An item that was accepted is graded, also when its photo was deleted meanwhile.
            var content = await photos.ReadAsync(name, evenIfMarked: true, cancellationToken).ConfigureAwait(false);
            return new PhotoBytes(content, photo?.Description.DisplayName ?? "", field);
        }
        catch (CoatScanException refusal)
        {
            throw new CoatScanException(refusal.Reason, refusal.Message, field, refusal.Metadata, refusal);
        }
    }
}
