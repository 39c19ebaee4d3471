namespace CoatScan.Storage.Photos;

/// <summary>A photo that shows the same picture as another one.</summary>
/// <param name="Sha256">SHA-256 of its bytes, lower-case hex.</param>
/// <param name="IsStored">Whether its bytes are in the photo store.</param>
/// <param name="Findings">Names of findings made from it, oldest first.</param>
/// <param name="DistanceBits">Bits in which the picture hashes differ, [0, 64]; 0 for equal bytes.</param>
/// <param name="SameBytes">Whether the bytes are equal.</param>
/// <param name="CaptureTime">Capture time that it carries; null if it carries none.</param>
/// <param name="FirstSeenTime">When it was first seen here, UTC.</param>
public sealed record SimilarPhoto(
    string Sha256,
    bool IsStored,
    IReadOnlyList<string> Findings,
    int DistanceBits,
    bool SameBytes,
    string? CaptureTime,
    DateTimeOffset FirstSeenTime);
