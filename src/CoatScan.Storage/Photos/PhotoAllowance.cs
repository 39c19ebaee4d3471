using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Storage.Photos;

/// <summary>What a tenant may store.</summary>
/// <param name="MaxPhotos">Most photos; null for no limit.</param>
/// <param name="MaxBytes">Most bytes of all photos together; null for no limit.</param>
public sealed record PhotoAllowance(long? MaxPhotos, long? MaxBytes)
{
    /// <summary>As many as the disk takes.</summary>
    public static PhotoAllowance Unlimited { get; } = new(null, null);

    internal bool IsUnlimited => MaxPhotos is null && MaxBytes is null;

    internal void Check(long photos, long bytes)
    {
        if (photos > MaxPhotos)
        {
            throw Exceeded("photos", photos, MaxPhotos.Value);
        }

        if (bytes > MaxBytes)
        {
            throw Exceeded("photo_bytes", bytes, MaxBytes.Value);
        }
    }

    private static CoatScanException Exceeded(string quota, long value, long limit) => new(
        ErrorReason.QuotaExceeded,
        $"With this photo {quota} would be {Text(value)}; at most {Text(limit)} are allowed. Delete photos, and try again a day "
            + "later, when their bytes are gone.",
        metadata: new Dictionary<string, string> { ["quota"] = quota, ["value"] = Text(value), ["limit"] = Text(limit) });

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
