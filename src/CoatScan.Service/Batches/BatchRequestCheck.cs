using System.Globalization;
using CoatScan.Batches;
using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Service.Mapping;
using CoatScan.Storage.Photos;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Batches;

/// <summary>Items of a request -> items to grade, checked before anything is stored: what is accepted can be graded.</summary>
internal sealed class BatchRequestCheck(KnowledgeBase knowledge, PhotoStore photos)
{
    private const int MaxPanelLength = 64;

    /// <summary>The items.</summary>
    /// <exception cref="CoatScanException">A field is refused and named, for example <c>items[3].photos[0]</c>.</exception>
    public async Task<IReadOnlyList<NewItem>> ToItemsAsync(
        IReadOnlyList<Wire.BatchItem> items, CancellationToken cancellationToken)
    {
        if (items.Count is 0 or > BatchLimits.MaxItemsAtOnce)
        {
            throw OutOfRange(ErrorReason.ValueOutOfRange, "items", "items", items.Count, BatchLimits.MaxItemsAtOnce);
        }

        var given = items.Select((item, index) => ToItem(item, $"items[{index}]")).ToList();
        await CheckPhotosAsync(given, cancellationToken).ConfigureAwait(false);
        return given;
    }

    private NewItem ToItem(Wire.BatchItem item, string field)
    {
        BatchNames.CheckKey(item.Key, $"{field}.key");
        CheckLength(item.VehicleRef, 1, BatchLimits.MaxVehicleRefLength, $"{field}.vehicle_ref");
        CheckLength(item.Panel, 0, MaxPanelLength, $"{field}.panel");
        if (item.Photos.Count is 0 or > BatchLimits.MaxPhotos)
        {
            throw OutOfRange(
                ErrorReason.PhotoCountOutOfRange, $"{field}.photos", "photos", item.Photos.Count, BatchLimits.MaxPhotos);
        }

        for (var index = 0; index < item.Photos.Count; index++)
        {
            PhotoName.DigestOf(item.Photos[index], $"{field}.photos[{index}]");
        }

        return new NewItem(item.Key, item.VehicleRef, [.. item.Photos], ToFacts(item, field));
    }

    private PanelFacts ToFacts(Wire.BatchItem item, string field)
    {
        PanelFacts facts;
        try
        {
            facts = RequestMapping.ToFacts(item.Facts);
        }
        catch (CoatScanException refusal)
        {
            throw refusal.Under(field);
        }

        if (facts.Panel.Length > 0 && facts.Panel != item.Panel)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{field}.facts.panel must be empty or the same as {field}.panel.",
                $"{field}.facts.panel");
        }

        try
        {
            FactsValidator.Validate(facts, knowledge);
        }
        catch (CoatScanException refusal)
        {
            throw refusal.Under($"{field}.facts");
        }

        return facts with { Panel = item.Panel };
    }

    private async Task CheckPhotosAsync(List<NewItem> items, CancellationToken cancellationToken)
    {
        var digests = items.SelectMany(item => item.Photos).Select(name => PhotoName.DigestOf(name)).ToList();
        if (await photos.FirstMissingAsync(digests, cancellationToken).ConfigureAwait(false) is not { } missing)
        {
            return;
        }

        var name = PhotoName.Of(missing);
        var index = items.FindIndex(item => item.Photos.Contains(name));
        throw new CoatScanException(
            ErrorReason.PhotoNotFound,
            $"There is no photo {name}, named by items[{index}]; upload it first.",
            metadata: new Dictionary<string, string>
            {
                ["name"] = name,
                ["field"] = $"items[{index}].photos",
            });
    }

    private static void CheckLength(string text, int least, int most, string field)
    {
        if (text.Length < least || text.Length > most)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{field} has {text.Length} characters; it must have {least} to {most}.",
                field,
                new Dictionary<string, string> { ["value"] = Text(text.Length), ["limit"] = Text(most) });
        }
    }

    private static CoatScanException OutOfRange(ErrorReason reason, string field, string what, int count, int most) => new(
        reason,
        $"{field} must hold 1 to {most} {what}; {count} came.",
        field,
        new Dictionary<string, string> { ["value"] = Text(count), ["limit"] = Text(most) });

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
