using CoatScan.V1;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>The steps of a client that grades a batch.</summary>
internal static class BatchSteps
{
    private static int _number;

    /// <summary>An id that no other test has.</summary>
    public static string NewId() => $"test-{Interlocked.Increment(ref _number)}";

    /// <summary>The same picture in other bytes: a comment at the start of the JPEG says which it is.</summary>
    public static byte[] Variant(byte[] jpeg, int number) =>
        [.. jpeg.AsSpan(0, 2), 0xFF, 0xFE, 0, 6, .. BitConverter.GetBytes(number), .. jpeg.AsSpan(2)];

    public static BatchItem Item(string key, string vehicle, params string[] photos)
    {
        var item = new BatchItem { Key = key, VehicleRef = vehicle };
        item.Photos.Add(photos);
        return item;
    }

    public static async Task<string> UploadAsync(this RunningServer server, byte[] photo) =>
        (await server.Photos.SendAsync(Uploads.Of(photo))).Name;

    /// <summary>Creates an open batch with items.</summary>
    public static async Task<string> OpenBatchAsync(this RunningServer server, params BatchItem[] items)
    {
        var batch = await server.Batches.CreateBatchAsync(new CreateBatchRequest { BatchId = NewId() });
        if (items.Length > 0)
        {
            await server.Batches.AddBatchItemsAsync(new AddBatchItemsRequest { Name = batch.Name, Items = { items } });
        }

        return batch.Name;
    }

    /// <summary>Watches until the stream ends.</summary>
    public static async Task<List<WatchBatchResponse>> WatchAsync(
        this RunningServer server, string batch, long startSequence = 0)
    {
        using var call = server.Batches.WatchBatch(
            new WatchBatchRequest { Name = batch, StartSequence = startSequence },
            cancellationToken: TestContext.Current.CancellationToken);
        var events = new List<WatchBatchResponse>();
        while (await call.ResponseStream.MoveNext(TestContext.Current.CancellationToken))
        {
            if (call.ResponseStream.Current.Sequence > 0)
            {
                events.Add(call.ResponseStream.Current);
            }
        }

        return events;
    }
}
