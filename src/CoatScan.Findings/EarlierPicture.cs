namespace CoatScan.Findings;

/// <summary>A photo of an earlier finding that shows the same picture. It says that it came before, not why.</summary>
/// <param name="Finding">Name of the earlier finding.</param>
/// <param name="CreateTime">When that finding was made, UTC.</param>
/// <param name="Sha256">SHA-256 of the earlier photo, lower-case hex.</param>
/// <param name="SameBytes">Whether the bytes are equal too.</param>
/// <param name="DistanceBits">Bits in which the picture hashes differ, [0, 64]; 0 for equal bytes.</param>
/// <param name="CaptureTime">Capture time that the earlier photo carries, ISO 8601; null if it carries none.</param>
public sealed record EarlierPicture(
    string Finding,
    DateTimeOffset CreateTime,
    string Sha256,
    bool SameBytes,
    int DistanceBits,
    string? CaptureTime);
