namespace CoatScan.Storage.Rows;

/// <summary>One photo of one finding: what recognizes the same picture when it comes again.</summary>
internal sealed class FindingPhotoRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    public required string FindingId { get; init; }

    /// <summary>Index into the photos of the finding, from 0.</summary>
    public required int PhotoIndex { get; init; }

    /// <summary>SHA-256 of the received bytes, lower-case hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>The bits of the perceptual hash; null for a picture too flat to have one.</summary>
    public long? PerceptualHash { get; init; }

    /// <summary>As the camera wrote it; null if it wrote none.</summary>
    public string? CaptureTime { get; init; }

    /// <summary>UTC, ticks of 100 ns: when the finding was made.</summary>
    public required long CreateTimeTicks { get; init; }
}
