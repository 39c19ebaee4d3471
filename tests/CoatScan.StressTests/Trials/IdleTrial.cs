using System.Collections.Concurrent;
using System.Diagnostics;
using CoatScan.Client;
using CoatScan.V1;
using Google.Protobuf;
using Grpc.Core;

namespace CoatScan.StressTests.Trials;

/// <summary>Bar O3: streams that send nothing, and senders of a byte a second.</summary>
internal static class IdleTrial
{
    // A pause of 10 s ends an upload; the rest is room for a machine with much to do.
    private const double LongestStreamSeconds = 60;

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var (streams, slow) = (options.Whole("streams", 1000), options.Whole("slow", 20));
        using var folder = new TemporaryFolder();
        await using var service = await ServiceUnderTest.StartAsync(folder.Path);
        var ends = new ConcurrentDictionary<string, int>();
        var lives = new Latencies();
        var senders = Enumerable.Range(0, streams + slow).Select(i => SendAsync(service, isSlow: i >= streams, ends, lives)).ToList();

        var (looks, notReady, uploads) = (0, 0, 0);
        var uploader = new PhotoUploader(service.Photos);
        while (!senders.TrueForAll(sender => sender.IsCompleted))
        {
            looks++;
            notReady += await service.IsReadyAsync() ? 0 : 1;
            using var content = new MemoryStream(StressPhotos.Variant(StressPhotos.Small, looks));
            try
            {
                await uploader.UploadAsync(content);
                uploads++;
            }
            catch (CoatScanCallException e) when (e.Reason == "SERVER_BUSY")
            {
                // As long as the idle ones hold every place.
            }

            await Task.Delay(500);
        }

        await Task.WhenAll(senders);
        using var last = new MemoryStream(StressPhotos.Variant(StressPhotos.Small, -1));
        await uploader.UploadAsync(last);

        foreach (var (reason, count) in ends.OrderByDescending(one => one.Value))
        {
            figures.Say($"ended with {reason}", $"{count}");
        }

        figures.Say("uploads that went through meanwhile", $"{uploads} of {looks}");
        figures.AtLeast("streams dropped", ends.Where(one => one.Key is "UPLOAD_TOO_SLOW" or "SERVER_BUSY").Sum(one => one.Value), streams + slow, "");
        figures.AtMost("longest life of a stream", lives.Percentile(1) / 1000, LongestStreamSeconds, "s");
        figures.AtMost("looks that found the service not ready", notReady, 0, $"of {looks}");
        figures.AtMost("half-received files left", Directory.GetFiles(Path.Combine(folder.Path, "photos", "incoming")).Length, 0, "");
    }

    private static async Task SendAsync(ServiceUnderTest service, bool isSlow, ConcurrentDictionary<string, int> ends, Latencies lives)
    {
        var photos = new PhotoService.PhotoServiceClient(service.PlainChannel);
        var start = Stopwatch.GetTimestamp();
        string end;
        using var call = photos.UploadPhoto();
        try
        {
            if (isSlow)
            {
                await CreepAsync(call);
            }

            await call;
            end = "OK";
        }
        catch (RpcException e)
        {
            end = CoatScanCallException.Of(e).Reason is { Length: > 0 } reason ? reason : e.StatusCode.ToString();
        }

        lives.Add(Stopwatch.GetElapsedTime(start));
        ends.AddOrUpdate(end, 1, (_, count) => count + 1);
    }

    private static async Task CreepAsync(AsyncClientStreamingCall<UploadPhotoRequest, Photo> call)
    {
        try
        {
            await call.RequestStream.WriteAsync(new UploadPhotoRequest { Metadata = new PhotoMetadata { Sha256 = new string('0', 64), SizeBytes = 1000 } });
            while (!call.ResponseAsync.IsCompleted)
            {
                await call.RequestStream.WriteAsync(new UploadPhotoRequest { Chunk = ByteString.CopyFrom(0) });
                await Task.WhenAny(call.ResponseAsync, Task.Delay(TimeSpan.FromSeconds(1)));
            }
        }
        catch (Exception e) when (e is RpcException or InvalidOperationException)
        {
            // The service has answered: the answer tells.
        }
    }
}
