namespace CoatScan.Service.Photos;

/// <summary>What a sender says about the bytes to come, and how errors name it.</summary>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hex; empty if not said.</param>
/// <param name="SizeBytes">Number of bytes; null if not said.</param>
/// <param name="DisplayName">Name for people; may be empty.</param>
internal sealed record UploadDeclaration(string Sha256, long? SizeBytes, string DisplayName)
{
    /// <summary>Field that holds the digest.</summary>
    public required string Sha256Field { get; init; }

    /// <summary>Field that holds the size.</summary>
    public required string SizeField { get; init; }

    /// <summary>Field that holds the name.</summary>
    public required string DisplayNameField { get; init; }

    /// <summary>Field that holds the bytes.</summary>
    public required string BytesField { get; init; }
}
