namespace CoatScan.Cli.Text;

/// <summary>Small joints of sentences.</summary>
internal static class Phrase
{
    /// <summary>An id as words: without prefix and underscores.</summary>
    public static string OfId(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        var start = id.LastIndexOfAny(['/', '.']) + 1;
        return id[start..].Replace('_', ' ');
    }

    /// <summary>Starts with a capital letter.</summary>
    public static string Capital(string text) =>
        string.IsNullOrEmpty(text) ? "" : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>Ends with a full stop.</summary>
    public static string Sentence(string text)
    {
        var trimmed = (text ?? "").Trim();
        return trimmed.Length == 0 || trimmed[^1] is '.' or '!' or '?' ? Capital(trimmed) : Capital(trimmed) + ".";
    }

    /// <summary>Joins: a, b and c.</summary>
    public static string List(IReadOnlyList<string> items) => items.Count switch
    {
        0 => "",
        1 => items[0],
        _ => $"{string.Join(", ", items.Take(items.Count - 1))} and {items[^1]}",
    };
}
