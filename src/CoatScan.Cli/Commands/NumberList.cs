using System.Text.RegularExpressions;

namespace CoatScan.Cli.Commands;

/// <summary>Takes a list of numbers apart: <c>118,125</c>, <c>118;125</c> or <c>118 125</c>.</summary>
/// <remarks>
/// The comma separates, as scripts rely on. Who writes decimals with a comma may mean 118.5 by <c>118,5</c>: a wrong film thickness is worse than a
/// question, so what reads two ways is not taken apart at all.
/// </remarks>
internal static partial class NumberList
{
    private static readonly char[] Separators = [';', ' ', '\t'];

    /// <summary>The numbers as they were written, with a decimal point; null where the list reads two ways.</summary>
    /// <param name="given">The list.</param>
    /// <param name="hasDecimalComma">Whether the reader's language writes decimals with a comma.</param>
    public static IReadOnlyList<string>? Split(string given, bool hasDecimalComma)
    {
        ArgumentNullException.ThrowIfNull(given);
        var pieces = given.Split(Separators, StringSplitOptions.RemoveEmptyEntries);

        // A comma with a space behind it separates in every language.
        if (pieces.Length > 1 && pieces[..^1].All(piece => piece.EndsWith(',')))
        {
            string[] words = [.. pieces[..^1].Select(piece => piece[..^1]), pieces[^1]];
            return words.Any(word => word.Contains(',', StringComparison.Ordinal)) ? null : words;
        }

        if (pieces.Length > 1)
        {
            // Where something else separates, a comma can only be a decimal mark, and that only for whoever writes it so.
            return pieces.Any(piece => piece.Contains(',', StringComparison.Ordinal) && !(hasDecimalComma && Decimal().IsMatch(piece)))
                ? null
                : [.. pieces.Select(piece => piece.Replace(',', '.'))];
        }

        var only = given.Trim();
        return hasDecimalComma && Decimal().IsMatch(only) ? null : only.Split(',');
    }

    // One comma with a tenth or a hundredth behind it: no gauge shows finer, and no second reading is as thin as that.
    [GeneratedRegex("^[0-9]+,[0-9]{1,2}$")]
    private static partial Regex Decimal();
}
