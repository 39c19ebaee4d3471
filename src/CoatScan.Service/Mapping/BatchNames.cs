using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Service.Mapping;

/// <summary>Names that callers give to batches and items.</summary>
internal static class BatchNames
{
    private const string Prefix = "batches/";
    private const int LeastIdLength = 4;
    private const int MostIdLength = 63;
    private const int MostDisplayNameLength = 255;

    public static string Of(string id) => Prefix + id;

    public static string OfItem(string batch, string key) => $"{Prefix}{batch}/items/{key}";

    /// <summary>The id in a batch's name.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID.</exception>
    public static string IdOf(string name, string field) =>
        name.StartsWith(Prefix, StringComparison.Ordinal) && IsId(name.AsSpan(Prefix.Length))
            ? name[Prefix.Length..]
            : throw Invalid(field, $"{Prefix} followed by {LeastIdLength} to {MostIdLength} of a-z, 0-9 and '-', first a letter");

    /// <summary>The id that the caller chose; null if none.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID.</exception>
    public static string? ChosenId(string id) => id.Length == 0
        ? null
        : IsId(id)
            ? id
            : throw Invalid("batch_id", $"{LeastIdLength} to {MostIdLength} of a-z, 0-9 and '-', first a letter");

    /// <exception cref="CoatScanException">FIELD_INVALID.</exception>
    public static void CheckKey(string key, string field)
    {
        if (key.Length is 0 or > MostIdLength || !key.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_'))
        {
            throw Invalid(field, $"1 to {MostIdLength} letters, digits, '-' or '_'");
        }
    }

    /// <exception cref="CoatScanException">FIELD_INVALID.</exception>
    public static void CheckDisplayName(string name)
    {
        if (name.Length > MostDisplayNameLength)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"batch.display_name has {name.Length} characters; at most {MostDisplayNameLength} are allowed.",
                "batch.display_name",
                new Dictionary<string, string>
                {
                    ["value"] = name.Length.ToString(CultureInfo.InvariantCulture),
                    ["limit"] = MostDisplayNameLength.ToString(CultureInfo.InvariantCulture),
                });
        }
    }

    private static bool IsId(ReadOnlySpan<char> id)
    {
        if (id.Length is < LeastIdLength or > MostIdLength || !char.IsAsciiLetterLower(id[0]))
        {
            return false;
        }

        foreach (var letter in id)
        {
            if (!char.IsAsciiLetterLower(letter) && !char.IsAsciiDigit(letter) && letter != '-')
            {
                return false;
            }
        }

        return true;
    }

    private static CoatScanException Invalid(string field, string format) => new(
        ErrorReason.FieldInvalid,
        $"{field} must be {format}.",
        field,
        new Dictionary<string, string> { ["format"] = format });
}
