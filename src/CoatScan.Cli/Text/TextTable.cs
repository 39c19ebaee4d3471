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
        while (widths.Sum() > room)
        {
            // The widest column gives way first, so that short ones stay whole.
            var widest = Array.IndexOf(widths, widths.Max());
            if (widths[widest] <= NarrowestColumn)
            {
                break;
            }

            widths[widest]--;
        }

        return widths;
    }

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
