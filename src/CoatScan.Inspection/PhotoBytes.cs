namespace CoatScan.Inspection;

/// <summary>One photo as it came in.</summary>
/// <param name="Content">Encoded bytes.</param>
/// <param name="DisplayName">The caller's name of the photo, text only; empty if not given.</param>
/// <param name="Field">Field of the request that holds the photo, for error messages, for example <c>photos[2]</c>.</param>
public sealed record PhotoBytes(ReadOnlyMemory<byte> Content, string DisplayName, string Field);
