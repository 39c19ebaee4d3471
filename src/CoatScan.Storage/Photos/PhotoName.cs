using System.Buffers;
using CoatScan.Findings;

namespace CoatScan.Storage.Photos;

/// <summary>The resource name of a photo: <c>photos/</c> and the SHA-256 of its bytes, so that equal bytes are one photo.</summary>
public static class PhotoName
{
    private const string Prefix = "photos/";
    private const int DigestLength = 64;

    private static readonly SearchValues<char> HexDigits = SearchValues.Create("0123456789abcdef");

    /// <summary>The name of the photo with a digest.</summary>
    public static string Of(string sha256) => Prefix + sha256;

    /// <summary>The digest in a name.</summary>
    /// <param name="name">The name.</param>
    /// <param name="field">Field of the request that holds it.</param>
    /// <exception cref="CoatScanException">FIELD_INVALID: the name is malformed.</exception>
    public static string DigestOf(string name, string field = "name")
    {
        ArgumentNullException.ThrowIfNull(name);
        if (name.StartsWith(Prefix, StringComparison.Ordinal) && IsDigest(name.AsSpan(Prefix.Length)))
        {
            return name[Prefix.Length..];
        }

        throw new CoatScanException(
            ErrorReason.FieldInvalid,
            $"{field} must be photos/ followed by the SHA-256 of the photo, {DigestLength} lower-case hex digits.",
            field,
            new Dictionary<string, string> { ["format"] = Prefix + "{sha256}" });
    }

    /// <summary>Whether a text is a SHA-256 in lower-case hex.</summary>
    public static bool IsDigest(ReadOnlySpan<char> text) =>
        text.Length == DigestLength && !text.ContainsAnyExcept(HexDigits);
}
