using CoatScan.Findings;

namespace CoatScan.Storage;

/// <summary>The resource name of a finding, <c>findings/{id}</c>.</summary>
internal static class FindingName
{
    public const int MaximumIdLength = 63;

    private const string Prefix = "findings/";

    /// <summary>The id of a name.</summary>
    /// <exception cref="CoatScanException">The name is malformed.</exception>
    public static string IdOf(string name)
    {
        if (name.StartsWith(Prefix, StringComparison.Ordinal) && IsId(name.AsSpan(Prefix.Length)))
        {
            return name[Prefix.Length..];
        }

        throw new CoatScanException(
            ErrorReason.FieldInvalid,
            $"name must be findings/ and an id of 1 to {MaximumIdLength} letters, digits, '-' or '_'.",
            "name",
            new Dictionary<string, string> { ["max_id_length"] = $"{MaximumIdLength}" });
    }

    public static string Of(string id) => Prefix + id;

    public static bool IsId(ReadOnlySpan<char> id)
    {
        if (id.Length is 0 or > MaximumIdLength)
        {
            return false;
        }

        foreach (var character in id)
        {
            if (!char.IsAsciiLetterOrDigit(character) && character is not ('-' or '_'))
            {
                return false;
            }
        }

        return true;
    }
}
