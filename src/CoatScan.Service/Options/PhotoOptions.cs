using System.ComponentModel.DataAnnotations;

namespace CoatScan.Service.Options;

/// <summary>How photos are received and compared. Section <c>CoatScan:Photos</c>.</summary>
public sealed class PhotoOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Photos";

    /// <summary>Largest chunk of an upload, bytes: below the size at which a buffer lands on the large object heap.</summary>
    public const int MaxChunkBytes = 64 * 1024;

    /// <summary>Most chunks of an upload; the largest photo then needs 4 KiB a chunk.</summary>
    public const int MaxChunkCount = 8192;

    /// <summary>Largest photo of an upload, bytes, [65536, 33554432].</summary>
    [Range(64 * 1024, 32 * 1024 * 1024)]
    public int MaxUploadBytes { get; set; } = 32 * 1024 * 1024;

    /// <summary>Uploads received at a time, [1, 10000]; the next one is refused with SERVER_BUSY.</summary>
    [Range(1, 10_000)]
    public int MaxUploads { get; set; } = 100;

    /// <summary>How long an upload may pause, milliseconds, [100, 600000].</summary>
    [Range(100, 600_000)]
    public int IdleTimeoutMs { get; set; } = 10_000;

    /// <summary>How long an upload may take, milliseconds, [100, 600000].</summary>
    [Range(100, 600_000)]
    public int TotalTimeoutMs { get; set; } = 120_000;

    /// <summary>Bytes per second that an upload has to reach once it has begun, [1, 1048576].</summary>
    [Range(1, 1024 * 1024)]
    public int MinBytesPerSecond { get; set; } = 4 * 1024;

    /// <summary>Whether findings tell that the same picture came before.</summary>
    public bool NoteSeenBefore { get; set; } = true;
}
