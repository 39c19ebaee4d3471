using System.ComponentModel.DataAnnotations;

namespace CoatScan.Service.Options;

/// <summary>How many photos are worked on, and how large a request may be. Section <c>CoatScan:Analysis</c>.</summary>
public sealed class AnalysisOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Analysis";

    /// <summary>Photos worked on at a time, [1, 256]; 0 means one less than the processor has cores, at least 1.</summary>
    [Range(0, 256)]
    public int Workers { get; set; }

    /// <summary>Requests that may wait for a worker, [0, 10000]; the next one is refused with SERVER_BUSY. -1 means one for each worker, so that
    /// under any load a request that is taken waits for about one other.</summary>
    [Range(-1, 10_000)]
    public int QueueLength { get; set; } = -1;

    /// <summary>Most millions of pixels of requests that wait, [12, 100000]; 0 means 12 for each place in the queue, so that a photo of
    /// 48 megapixels takes the room of four ordinary ones. A single request may wait however large it is.</summary>
    [Range(0, 100_000)]
    public int MaxMegapixelsWaiting { get; set; }

    /// <summary>Photos of one AnalyzePhotos stream held at a time, [1, 64].</summary>
    [Range(1, 64)]
    public int StreamInFlight { get; set; } = 4;

    /// <summary>Largest photo inside a request, bytes, [65536, 33554432].</summary>
    [Range(64 * 1024, 32 * 1024 * 1024)]
    public int MaxInlineBytes { get; set; } = 8 * 1024 * 1024;

    /// <summary>Largest sum of the photos of AnalyzePanel, bytes, [65536, 100663296].</summary>
    [Range(64 * 1024, 96 * 1024 * 1024)]
    public int MaxPanelBytes { get; set; } = 32 * 1024 * 1024;

    /// <summary>Most millions of pixels decoded at full size at a time, over calls, batches and uploads, [50, 100000]; 0 means 12 for
    /// each worker, at least 100. A megapixel takes about 3 MB.</summary>
    [Range(0, 100_000)]
    public int MaxMegapixelsInFlight { get; set; }

    /// <summary>Most photos of AnalyzePanel.</summary>
    public const int MaxPanelPhotoCount = 12;

    /// <summary>Room beside the photos in a message: facts, names, framing; bytes.</summary>
    internal const int MessageOverheadBytes = 1024 * 1024;

    /// <summary>Largest gRPC message, bytes.</summary>
    internal int MaxMessageBytes => Math.Max(MaxInlineBytes, MaxPanelBytes) + MessageOverheadBytes;

    /// <summary>Largest JSON body, bytes: base64 makes photos a third longer.</summary>
    internal long MaxJsonBodyBytes => (MaxMessageBytes * 4L / 3) + MessageOverheadBytes;

    /// <summary>Most millions of pixels decoded at a time, at least 50.</summary>
    internal int EffectiveMegapixelsInFlight =>
        MaxMegapixelsInFlight > 0 ? MaxMegapixelsInFlight : Math.Max(100, 12 * EffectiveWorkers);

    /// <summary>Requests that may wait, 0 or more.</summary>
    internal int EffectiveQueueLength => QueueLength >= 0 ? QueueLength : EffectiveWorkers;

    /// <summary>Most millions of pixels that wait.</summary>
    internal int EffectiveMegapixelsWaiting => MaxMegapixelsWaiting > 0 ? MaxMegapixelsWaiting : 12 * EffectiveQueueLength;

    /// <summary>Photos worked on at a time, at least 1.</summary>
    internal int EffectiveWorkers => Workers > 0 ? Workers : Math.Max(1, Environment.ProcessorCount - 1);
}
