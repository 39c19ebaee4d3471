using CoatScan.Client;
using CoatScan.V1;

namespace CoatScan.StressTests;

/// <summary>Fills batches.</summary>
internal static class BatchFeed
{
    private const int ItemsAtOnce = 500;
    private const int UploadsAtOnce = 4;

    /// <summary>Uploads different small photos.</summary>
    /// <returns>Their names.</returns>
    public static Task<string[]> UploadAsync(ServiceUnderTest service, int count) =>
        UploadAsync(service, count, i => StressPhotos.Variant(StressPhotos.Small, i));

    /// <summary>Uploads photos, each made when its turn comes.</summary>
    /// <returns>Their names.</returns>
    public static async Task<string[]> UploadAsync(ServiceUnderTest service, int count, Func<int, byte[]> photo)
    {
        var uploader = new PhotoUploader(service.Photos);
        var names = new string[count];
        await Parallel.ForAsync(0, count, new ParallelOptions { MaxDegreeOfParallelism = UploadsAtOnce }, async (i, token) =>
        {
            using var content = new MemoryStream(photo(i));
            names[i] = (await uploader.UploadAsync(content, cancellationToken: token)).Name;
        });
        return names;
    }

    /// <summary>Makes a batch of stored photos, one an item, and starts it.</summary>
    /// <param name="service">Where.</param>
    /// <param name="batchId">Id of the batch.</param>
    /// <param name="photos">Names of the photos, taken in turn.</param>
    /// <param name="items">Number of items.</param>
    public static async Task StartAsync(ServiceUnderTest service, string batchId, IReadOnlyList<string> photos, int items)
    {
        await service.Batches.CreateBatchAsync(new CreateBatchRequest { BatchId = batchId });
        foreach (var chunk in Enumerable.Range(0, items).Chunk(ItemsAtOnce))
        {
            var request = new AddBatchItemsRequest { Name = $"batches/{batchId}" };
            request.Items.Add(chunk.Select(i => new BatchItem
            {
                Key = $"item-{i}",
                VehicleRef = $"vehicle-{i / 10}",
                Photos = { photos[i % photos.Count] },
            }));
            await service.Batches.AddBatchItemsAsync(request);
        }

        await service.Batches.StartBatchAsync(new StartBatchRequest { Name = $"batches/{batchId}" });
    }

    /// <summary>Every item of a batch.</summary>
    public static async Task<List<BatchItem>> ItemsAsync(ServiceUnderTest service, string batchId)
    {
        var items = new List<BatchItem>();
        var token = "";
        do
        {
            var page = await service.Batches.ListBatchItemsAsync(
                new ListBatchItemsRequest { Parent = $"batches/{batchId}", PageSize = 1000, PageToken = token });
            items.AddRange(page.Items);
            token = page.NextPageToken;
        }
        while (token.Length > 0);

        return items;
    }
}
