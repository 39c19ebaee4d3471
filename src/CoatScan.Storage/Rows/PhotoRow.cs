namespace CoatScan.Storage.Rows;

/// <summary>One stored photo; its bytes lie in a file named by the digest.</summary>
internal sealed class PhotoRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    /// <summary>SHA-256 of the bytes, lower-case hex; also the part of the name after <c>photos/</c>.</summary>
    public required string Sha256 { get; init; }

    public required long SizeBytes { get; init; }

    public required string MediaType { get; init; }

    public required int WidthPx { get; init; }

    public required int HeightPx { get; init; }

    public required string DisplayName { get; set; }

    /// <summary>As the camera wrote it; null if it wrote none.</summary>
    public string? CaptureTime { get; init; }

    /// <summary>The bits of the perceptual hash; null for a picture too flat to have one.</summary>
    public long? PerceptualHash { get; init; }

    /// <summary>UTC, ticks of 100 ns.</summary>
    public required long CreateTimeTicks { get; init; }

    /// <summary>UTC, ticks of 100 ns: when retention ends.</summary>
    public required long ExpireTimeTicks { get; set; }

    /// <summary>UTC, ticks of 100 ns: when it was marked for removal; null for a photo that is there.</summary>
    public long? DeleteTimeTicks { get; set; }
}
