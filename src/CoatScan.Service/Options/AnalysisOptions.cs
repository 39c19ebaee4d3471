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

    /// <summary>Requests that may wait for a worker, [0, 10000]; the next one is refused with SERVER_BUSY.</summary>
    [Range(0, 10_000)]
    public int QueueLength { get; set; } = 8;

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

    /// <summary>Photos worked on at a time, at least 1.</summary>
    internal int EffectiveWorkers => Workers > 0 ? Workers : Math.Max(1, Environment.ProcessorCount - 1);
}
