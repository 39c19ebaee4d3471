using CoatScan.Reports;

namespace CoatScan.Cli.Sheets;

/// <summary>Which sheets to write, and how.</summary>
/// <param name="Kinds">Which.</param>
/// <param name="IsPdf">As PDF rather than as HTML.</param>
/// <param name="Paper">For which paper.</param>
internal sealed record SheetChoice(IReadOnlyList<SheetKind> Kinds, bool IsPdf, Paper Paper)
{
    /// <summary>The language.</summary>
    public SheetWords Words { get; init; } = SheetWords.English;

    /// <summary>End of the files' names.</summary>
    public string Extension => IsPdf ? ".pdf" : ".html";

    /// <summary>The bytes of a sheet.</summary>
    public byte[] Write(Sheet sheet, DateTimeOffset created) => IsPdf
        ? PdfWriter.Write(sheet, Paper, created)
        : System.Text.Encoding.UTF8.GetBytes(HtmlWriter.Write(sheet, Paper));
}
