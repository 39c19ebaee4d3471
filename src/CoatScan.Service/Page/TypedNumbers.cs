using System.Globalization;
using System.Text.RegularExpressions;
using CoatScan.Findings;
using CoatScan.Service.Page.Words;

namespace CoatScan.Service.Page;

/// <summary>Numbers as people type them into a form of the page.</summary>
/// <remarks>
/// A comma is the decimal mark of half of the world and separates readings in the other half, and a point groups thousands where a comma is the
/// decimal mark. What can be read in two ways is refused with the field named: a wrong film thickness is worse than a question.
/// </remarks>
internal sealed partial class TypedNumbers(PageWords words)
{
    private readonly bool _hasDecimalComma = words.Format.DecimalMark == ",";

    /// <summary>One number, with a decimal point or comma; null for an empty field.</summary>
    public double? One(string text, string field) => text.Length == 0 ? null : Number(text, field);

    /// <summary>Readings, separated by semicolons or spaces; a comma separates where it can be nothing else.</summary>
    public IReadOnlyList<double> Several(string text, string field)
    {
        const StringSplitOptions clean = StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries;
        var hasSemicolons = text.Contains(';', StringComparison.Ordinal);
        string[] parts = hasSemicolons ? text.Split(';', clean) : text.Split((char[]?)null, clean);

        // A comma with a space behind it separates in every language.
        var areCommasBetween = !hasSemicolons && parts.Any(one => one.EndsWith(','));
        var isCommaDecimal = hasSemicolons || (_hasDecimalComma && parts.Length > 1 && !areCommasBetween);
        string[] pieces = hasSemicolons
            ? parts
            : [.. parts.SelectMany(one => Pieces(one.EndsWith(',') ? one[..^1] : one)).Where(one => one.Length > 0)];
        return pieces.Length == 0
            ? throw Refused(text, field, isAmbiguous: false)
            : [.. pieces.Select(one => Reading(one, isCommaDecimal, field))];
    }

    // Where a point is the decimal mark, 118,125,110 is a list: no reading has so few digits that its pieces could be one number.
    private string[] Pieces(string word) => !_hasDecimalComma && List().IsMatch(word) ? word.Split(',') : [word];

    private double Reading(string piece, bool isCommaDecimal, string field)
    {
        // One digit behind a comma is a tenth for whoever writes decimals so; for whoever does not, it may be a reading.
        var isClear = isCommaDecimal || (_hasDecimalComma && Tenth().IsMatch(piece));
        var isTwofold = (piece.Contains(',', StringComparison.Ordinal) && !isClear)
            || Mixed().IsMatch(piece)
            || (_hasDecimalComma ? PointThousands() : CommaThousands()).IsMatch(piece);
        return isTwofold && Digits().IsMatch(piece)
            ? throw Refused(piece, field, isAmbiguous: true)
            : Number(piece, field);
    }

    private double Number(string piece, string field) =>
        double.TryParse(piece.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value
            : throw Refused(piece, field, isAmbiguous: false);

    private CoatScanException Refused(string text, string field, bool isAmbiguous) => new(
        ErrorReason.FieldInvalid,
        words.Fill(isAmbiguous ? words.ReadingsAmbiguous : words.NoNumber, text),
        field,
        new Dictionary<string, string> { ["value"] = text, ["format"] = isAmbiguous ? "unambiguous number" : "number" });

    // Readings of at least two digits each, with a comma between them.
    [GeneratedRegex(@"^[0-9]{2,}(\.[0-9]+)?(,[0-9]{2,}(\.[0-9]+)?)+$")]
    private static partial Regex List();

    [GeneratedRegex("^[0-9]+,[0-9]$")]
    private static partial Regex Tenth();

    [GeneratedRegex(@"^[0-9.,]+$")]
    private static partial Regex Digits();

    [GeneratedRegex(@"\..*,|,.*\.")]
    private static partial Regex Mixed();

    [GeneratedRegex(@"^[0-9]{1,3}\.[0-9]{3}$")]
    private static partial Regex PointThousands();

    [GeneratedRegex("^[0-9],[0-9]{3}$")]
    private static partial Regex CommaThousands();
}
