namespace CoatScan.Reports;

/// <summary>Lines of CSV by RFC 4180, safe to open in a spreadsheet.</summary>
internal static class CsvText
{
    /// <summary>One line with its end.</summary>
    public static string Line(IEnumerable<string> cells) => string.Join(',', cells.Select(Cell)) + "\r\n";

    private static string Cell(string text)
    {
        // A spreadsheet would run a cell that begins like a formula; an apostrophe makes it text.
        string safe = text.TrimStart(' ') is ['=' or '+' or '-' or '@' or '\t' or '\r' or '\n' or '\uFF1D' or '\uFF0B' or '\uFF0D' or '\uFF20', ..]
            ? "'" + text
            : text;
        return safe.AsSpan().IndexOfAny("\",\r\n;") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
