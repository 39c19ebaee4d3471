using System.Text;

namespace CoatScan.Reports;

/// <summary>Text without what no page can show: control characters, halves of pairs, marks that turn the direction of reading.</summary>
internal static class CleanText
{
    /// <summary>The text with each such character as a space; lone halves as the replacement character.</summary>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var clean = new StringBuilder(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            bool shows = !Rune.IsControl(rune) && rune.Value is not (0xFFFE or 0xFFFF or (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069));
            clean.Append(shows ? rune.ToString() : " ");
        }

        // A figure and its percent sign stay on one line.
        return clean.Replace(" %", "\u00A0%").ToString();
    }
}
