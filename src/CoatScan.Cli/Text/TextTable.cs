namespace CoatScan.Cli.Text;

/// <summary>A table of columns set apart by spaces; long cells wrap inside their column.</summary>
internal static class TextTable
{
    private const int BetweenColumns = 2;
    private const int NarrowestColumn = 9;

    /// <summary>Writes the table.</summary>
    /// <param name="page">Where to write.</param>
    /// <param name="widthColumns">Width of the whole table, as far as each column stays readable.</param>
    /// <param name="heads">Heads of the columns.</param>
    /// <param name="rows">Cells, as many in each row as there are heads.</param>
    public static void Write(TextPage page, int widthColumns, string[] heads, IReadOnlyList<string[]> rows)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(rows);
        var widths = Widths(widthColumns, heads, rows);
        foreach (var line in Lines(heads, widths))
        {
            page.Row(line, Style.Faint);
        }

        foreach (var row in rows)
        {
            foreach (var line in Lines(row, widths))
            {
                page.Row(line);
            }
        }
    }

    private static int[] Widths(int widthColumns, string[] heads, IReadOnlyList<string[]> rows)
    {
        var widths = heads
            .Select((head, column) => rows.Select(row => row[column].Length).Append(head.Length).Max())
            .ToArray();
        var room = widthColumns - (BetweenColumns * (widths.Length - 1));
        var words = heads
            .Select((head, column) => rows.Select(row => LongestWord(row[column])).Append(LongestWord(head)).Max())
            .ToArray();
        while (widths.Sum() > room)
        {
            // The widest column gives way first, so that short ones stay whole, and words before letters: a file name
            // is cut only when no column has a space left to break at.
            var candidates = Enumerable.Range(0, widths.Length).Where(column => widths[column] > NarrowestColumn).ToList();
            var breakable = candidates.Where(column => widths[column] > words[column]).ToList();
            if (candidates.Count == 0)
            {
                break;
            }

            widths[(breakable.Count > 0 ? breakable : candidates).MaxBy(column => widths[column])]--;
        }

        return widths;
    }

    private static int LongestWord(string cell) => cell.Split(' ').Max(word => word.Length);

    private static IEnumerable<string> Lines(string[] cells, int[] widths)
    {
        var columns = cells.Select((cell, column) => Wrapped(cell, widths[column])).ToArray();
        var height = Math.Max(1, columns.Max(column => column.Count));
        for (var line = 0; line < height; line++)
        {
            var parts = columns.Select((column, index) =>
                (line < column.Count ? column[line] : "").PadRight(widths[index]));
            yield return string.Join(new string(' ', BetweenColumns), parts);
        }
    }

    private static List<string> Wrapped(string cell, int width)
    {
        var lines = new List<string>();
        foreach (var line in WordWrap.Lines(cell, width))
        {
            // A path has no spaces: it is cut wherever the column ends.
            for (var start = 0; start < line.Length; start += width)
            {
                lines.Add(line.Substring(start, Math.Min(width, line.Length - start)));
            }
        }

        return lines;
    }
}
