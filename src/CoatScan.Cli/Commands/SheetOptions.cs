using System.CommandLine;
using CoatScan.Cli.Output;
using CoatScan.Cli.Sheets;
using CoatScan.Reports;

namespace CoatScan.Cli.Commands;

/// <summary>The options of commands that write sheets into a folder.</summary>
internal sealed class SheetOptions
{
    private readonly Option<OutputFormat?> _format = FormatOption.CreateWithSheets();
    private readonly Option<IReadOnlyList<SheetKind>?> _sheets = SheetsOption.Create();
    private readonly Option<Paper?> _paper = PaperOption.Create();
    private readonly Option<string?> _out;

    /// <summary>Prepares the options.</summary>
    /// <param name="kind">What a finding is of: <c>photo</c> or <c>case</c>.</param>
    public SheetOptions(string kind) => _out = new("--out")
    {
        Description = $"Folder for one JSON file and one sheet a {kind}, an index of the sheets, a table (findings.csv) and a summary.txt, "
            + "besides the output here.",
        HelpName = "folder",
    };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_format);
        command.Options.Add(_out);
        command.Options.Add(_sheets);
        command.Options.Add(_paper);
    }

    /// <summary>The format; null when none is given.</summary>
    public OutputFormat? Format(ParseResult parsed) => parsed.GetValue(_format);

    /// <summary>Opens the folder of <c>--out</c> with the writer of its sheets; both null where it is not given.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="format">The format.</param>
    /// <param name="findings">How many findings there may be; null where nobody knows yet.</param>
    /// <exception cref="CommandException">Options that do not go together, or a folder that cannot be written to.</exception>
    public (OutFolder? Folder, SheetWriter? Sheets) Open(ParseResult parsed, OutputFormat format, int? findings)
    {
        var kinds = parsed.GetValue(_sheets);
        var folder = parsed.GetValue(_out);
        if (folder is null && (format is OutputFormat.Html or OutputFormat.Pdf || kinds is not null))
        {
            var option = kinds is null ? $"--format {format.ToString().ToLowerInvariant()}" : "--sheets";
            throw CommandException.Usage($"{option} writes files: name a folder for them with --out.");
        }

        if (kinds?.Contains(SheetKind.Vehicle) == true && findings > SheetWriter.MostPanels)
        {
            throw CommandException.Usage($"--sheets vehicle takes at most {SheetWriter.MostPanels} photos; {findings} are given.");
        }

        if (folder is null)
        {
            return (null, null);
        }

        var choice = new SheetChoice(kinds ?? [SheetKind.Finding], format == OutputFormat.Pdf, parsed.GetValue(_paper) ?? Paper.A4)
        {
            Words = LanguageOption.Of(parsed),
        };
        var opened = OutFolder.Open(folder, SheetWriter.OwnNames);
        return (opened, new SheetWriter(opened, choice));
    }
}
