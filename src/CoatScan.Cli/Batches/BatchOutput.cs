using CoatScan.Cli.Commands;
using CoatScan.Cli.Sheets;
using CoatScan.Cli.Text;

namespace CoatScan.Cli.Batches;

/// <summary>What a batch writes, and where.</summary>
/// <param name="Format">What goes to standard output; and of which kind the sheets are.</param>
/// <param name="Choice">Which sheets.</param>
/// <param name="Folder">The folder of <c>--out</c>; null without one.</param>
internal sealed record BatchOutput(OutputFormat Format, SheetChoice Choice, BatchOutFolder? Folder)
{
    /// <summary>The language of the terminal, which is that of the sheets.</summary>
    public ReaderWords Words { get; } = new(Choice.Words);
}
