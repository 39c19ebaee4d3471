namespace CoatScan.Cli.Text;

/// <summary>Breaks text into lines at spaces.</summary>
internal static class WordWrap
{
    /// <summary>The lines, each at most the width, but for a single word that is longer.</summary>
    public static IEnumerable<string> Lines(string text, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(text);
        var width = Math.Max(1, widthColumns);
        var line = "";
        foreach (var word in Words(text))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                yield return line;
                line = "";
            }

            line = line.Length == 0 ? word : $"{line} {word}";
        }

        if (line.Length > 0)
        {
            yield return line;
        }
    }

    /// <summary>Text without control characters, which could drive the terminal from within a file name.</summary>
    public static string Clean(string text) =>
        string.Create(text.Length, text, (span, source) =>
        {
            for (var i = 0; i < source.Length; i++)
            {
                span[i] = char.IsControl(source[i]) ? ' ' : source[i];
            }
        });

    // A figure and its percent sign stay together.
    private static IEnumerable<string> Words(string text)
    {
        var words = Clean(text).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (var i = 0; i < words.Length; i++)
        {
            var glued = i + 1 < words.Length && words[i + 1].StartsWith('%');
            yield return glued ? $"{words[i]} {words[++i]}" : words[i];
        }
    }
}
