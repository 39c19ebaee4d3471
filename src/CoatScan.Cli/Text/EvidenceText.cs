using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>The evidence vocabulary as a table.</summary>
internal static class EvidenceText
{
    /// <summary>Writes the table.</summary>
    public static void Write(TextPage page, IReadOnlyList<EvidenceTerm> terms, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(terms);
        TextTable.Write(
            page,
            widthColumns,
            ["id", page.Words.Fill("meaning")],
            [.. terms.Select(term => new[] { term.Id, page.Words.Say(term.Text) })]);
    }
}
