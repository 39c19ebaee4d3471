namespace CoatScan.Cli.Text;

/// <summary>The table at the end of a run over several photos.</summary>
internal static class OverviewText
{
    private static readonly string[] Heads = ["name", "verdict", "leading condition", "share", "first"];

    /// <summary>Writes the table, worst first; equals keep the order of the input.</summary>
    public static void Write(TextPage page, IReadOnlyList<OverviewRow> rows, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(rows);
        page.Rule('=');
        page.Paragraph(page.Words.Fill("OVERVIEW of {0}, worst first", rows.Count), Style.Strong);
        page.Rule('-');
        var above = CommonFolder(rows);
        TextTable.Write(
            page,
            widthColumns,
            [.. Heads.Select(head => page.Words.Fill(head))],
            [.. rows.OrderBy(row => row.Order).Select(row =>
                new[] { row.Name[above..], row.Verdict, row.Lead, row.Share, row.FirstStep })]);
    }

    // A folder that all names share tells nothing apart and takes the room of the other columns.
    private static int CommonFolder(IReadOnlyList<OverviewRow> rows)
    {
        var first = rows.Count > 0 ? rows[0].Name : "";
        var length = first.LastIndexOf('/') + 1;
        while (length > 0 && !rows.All(row => row.Name.StartsWith(first[..length], StringComparison.Ordinal)))
        {
            length = first.LastIndexOf('/', Math.Max(0, length - 2)) + 1;
        }

        return length;
    }
}
