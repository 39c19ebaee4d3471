using System.Globalization;

namespace CoatScan.Reports;

/// <summary>A text with blanks, found again in what was filled in.</summary>
internal sealed class TextPattern
{
    private readonly string _said;

    // The parts around the blanks, and which blank follows each but the last.
    private readonly string[] _parts;
    private readonly int[] _blanks;

    /// <summary>A pattern and what it says in the other language.</summary>
    public TextPattern(string english, string said)
    {
        _said = said;
        string[] pieces = english.Split('{', '}');
        _parts = [.. pieces.Where((_, at) => at % 2 == 0)];
        _blanks = [.. pieces.Where((_, at) => at % 2 == 1).Select(piece => int.Parse(piece, CultureInfo.InvariantCulture))];
    }

    /// <summary>Letters outside the blanks: the more, the surer it is the right one.</summary>
    public int Weight => _parts.Sum(part => part.Length);

    /// <summary>What a text says in the other language; null where the text is not of this pattern.</summary>
    /// <param name="text">The text, filled in.</param>
    /// <param name="say">What stands in a blank, in the other language; null where that is no text.</param>
    public string? Say(string text, Func<string, string?> say)
    {
        if (text.Length < Weight || !HoldsAll(text))
        {
            return null;
        }

        var values = new string[_blanks.Length];
        if (!Fits(text, 0, 0, values, say))
        {
            return null;
        }

        string filled = _said;
        for (int at = 0; at < values.Length; at++)
        {
            filled = filled.Replace($"{{{_blanks[at]}}}", values[at], StringComparison.Ordinal);
        }

        return filled;
    }

    // Cheap, and turns away nearly every text that is of another pattern.
    private bool HoldsAll(string text)
    {
        int from = FirstFits(text) ? _parts[0].Length : -1;
        for (int at = 1; from >= 0 && at < _parts.Length; at++)
        {
            int found = text.IndexOf(_parts[at], from, StringComparison.Ordinal);
            from = found < 0 ? -1 : found + _parts[at].Length;
        }

        return from >= 0 && text.EndsWith(_parts[^1], StringComparison.Ordinal);
    }

    // A sentence may begin with a capital letter that stands small in the pattern.
    private bool FirstFits(string text) => _parts[0].Length == 0
        || (char.ToLowerInvariant(text[0]) == char.ToLowerInvariant(_parts[0][0])
            && text.AsSpan(1).StartsWith(_parts[0].AsSpan(1), StringComparison.Ordinal));

    private bool Fits(string text, int part, int from, string[] values, Func<string, string?> say)
    {
        int begin = from + _parts[part].Length;
        if (part == _blanks.Length)
        {
            return begin == text.Length;
        }

        string next = _parts[part + 1];
        bool isLast = part + 1 == _blanks.Length;
        int end = isLast ? text.Length - next.Length : text.IndexOf(next, begin, StringComparison.Ordinal);

        // What somebody typed stands in quotes, and stays as it was typed.
        bool isQuoted = _parts[part].EndsWith('\'') && next.StartsWith('\'');
        while (end > begin || (isQuoted && end == begin))
        {
            string value = text[begin..end];
            if ((isQuoted ? value : say(value)) is { } said)
            {
                values[part] = said;
                if (Fits(text, part + 1, end, values, say))
                {
                    return true;
                }
            }

            end = isLast ? -1 : text.IndexOf(next, end + 1, StringComparison.Ordinal);
        }

        return false;
    }
}
