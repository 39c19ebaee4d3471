namespace CoatScan.Reports;

/// <summary>Small joints of sentences.</summary>
internal static class Phrases
{
    /// <summary>Begins with a capital letter and ends with a full stop.</summary>
    public static string Sentence(string text)
    {
        string trimmed = text.Trim();
        return trimmed.Length == 0 || trimmed[^1] is '.' or '!' or '?' ? Capital(trimmed) : Capital(trimmed) + ".";
    }

    /// <summary>Begins with a capital letter.</summary>
    public static string Capital(string text) => text.Length == 0 ? "" : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>An id as words.</summary>
    public static string OfId(string id) => id[(id.LastIndexOfAny(['/', '.']) + 1)..].Replace('_', ' ');
}
