namespace CoatScan.Service.Access;

/// <summary>The limits of a tenant.</summary>
public class QuotaLimits
{
    /// <summary>Most calls within a minute, 1 to 1000000; each photo of a stream counts as one.</summary>
    public int? CallsPerMinute { get; set; }

    /// <summary>Most stored photos, 0 or more.</summary>
    public long? MaxPhotos { get; set; }

    /// <summary>Most bytes of all stored photos together, 0 or more.</summary>
    public long? MaxPhotoBytes { get; set; }
}
