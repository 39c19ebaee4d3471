using System.CommandLine;
using CoatScan.Cli.Sheets;
using CoatScan.Reports;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan photo-guide</c>: a page to print that shows how to take the photos of a fault.</summary>
internal sealed class PhotoGuideCommand
{
    private readonly Session _session;
    private readonly Option<Paper?> _paper = PaperOption.Create();

    private readonly Option<string> _out = new("--out")
    {
        Description = "File to write, .pdf or .html; an existing one is replaced.",
        HelpName = "file",
        Required = true,
    };

    private PhotoGuideCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var guide = new PhotoGuideCommand(session);
        var command = new Command("photo-guide", "Writes a page that shows how to take the photos of a fault.")
        {
            guide._out,
            guide._paper,
        };
        command.SetAction(guide.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var path = parsed.GetValue(_out)!;
        var isPdf = path.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase);
        if (!isPdf && !path.EndsWith(".html", StringComparison.OrdinalIgnoreCase))
        {
            throw CommandException.Usage($"--out takes a file that ends with .pdf or .html, not '{path}'.");
        }

        // The guide is the same every day: it has no date of its own.
        var choice = new SheetChoice([], isPdf, parsed.GetValue(_paper) ?? Paper.A4) { Words = LanguageOption.Of(parsed) };
        try
        {
            await File.WriteAllBytesAsync(
                path, choice.Write(PhotoGuide.Of(choice.Words), DateTimeOffset.UnixEpoch), cancellationToken);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw CommandException.Usage(
                $"--out: '{path}' cannot be written to: {failure.Message} Name a file in a folder that this account may write to.");
        }

        await _session.Out.WriteLineAsync(LanguageOption.Reader(parsed).Fill("{0}: print it and take it to the car.", path));
        return ExitCode.Done;
    }
}
