namespace CoatScan.Storage.Photos;

/// <summary>A photo in the store.</summary>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hex.</param>
/// <param name="SizeBytes">Number of bytes.</param>
/// <param name="Description">What is known beside the bytes.</param>
/// <param name="CreateTime">When it was first received, UTC.</param>
/// <param name="ExpireTime">When its retention ends, UTC.</param>
public sealed record StoredPhoto(
    string Sha256,
    long SizeBytes,
    PhotoDescription Description,
    DateTimeOffset CreateTime,
    DateTimeOffset ExpireTime)
{
    /// <summary>Resource name, <c>photos/{sha256}</c>.</summary>
    public string Name => PhotoName.Of(Sha256);
}
