using CoatScan.Findings;
using CoatScan.Service.Photos;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Requests about photos -> domain, checked.</summary>
internal static class PhotoRequestMapping
{
    private const string Metadata = "metadata";

    /// <summary>What an upload says about its bytes.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: the digest is missing; more is checked where it is used.</exception>
    public static UploadDeclaration ToDeclaration(Wire.PhotoMetadata metadata)
    {
        const string field = $"{Metadata}.sha256";
        return metadata.Sha256.Length > 0
            ? new UploadDeclaration(metadata.Sha256, metadata.SizeBytes, metadata.DisplayName)
            {
                Sha256Field = field,
                SizeField = $"{Metadata}.size_bytes",
                DisplayNameField = $"{Metadata}.display_name",
                BytesField = "chunk",
            }
            : throw new CoatScanException(
                ErrorReason.FieldInvalid, $"{field} must be the SHA-256 of the photo, 64 lower-case hex digits.", field);
    }

    /// <summary>The value itself, if it is in [0, limit].</summary>
    /// <exception cref="CoatScanException">VALUE_OUT_OF_RANGE.</exception>
    public static int InRange(int value, int limit, string field) => value >= 0 && value <= limit
        ? value
        : throw new CoatScanException(
            ErrorReason.ValueOutOfRange,
            $"{field} is {value}; it must be 0 to {limit}.",
            field,
            new Dictionary<string, string> { ["value"] = $"{value}", ["limit"] = $"{limit}" });
}
