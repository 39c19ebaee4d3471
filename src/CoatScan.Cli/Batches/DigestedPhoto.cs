using System.Security.Cryptography;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Photos;

namespace CoatScan.Cli.Batches;

/// <summary>A photo with the digest that names it, or why it cannot be read.</summary>
/// <param name="Place">Where it is.</param>
/// <param name="Sha256">Digest of its bytes, lower-case hex; empty if it cannot be read.</param>
/// <param name="SizeBytes">Number of bytes.</param>
/// <param name="Error">Why it cannot be read; null if it can.</param>
internal sealed record DigestedPhoto(PhotoPlace Place, string Sha256, long SizeBytes, ServiceError? Error)
{
    /// <summary>Its name in the service.</summary>
    public string Name => $"photos/{Sha256}";

    /// <summary>Reads the photo once, without keeping it.</summary>
    public static async Task<DigestedPhoto> OfAsync(PhotoPlace place, CancellationToken cancellationToken)
    {
        if (place.Error is { } known)
        {
            return new(place, "", 0, known);
        }

        try
        {
            await using var file = File.OpenRead(place.Path);
            var digest = await SHA256.HashDataAsync(file, cancellationToken);
            return new(place, Convert.ToHexStringLower(digest), file.Length, null);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new(place, "", 0, PhotoFile.Unreadable(failure));
        }
    }
}
