using System.CommandLine;
using CoatScan.Findings;
using CoatScan.Imaging.Cards;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan scale-card</c>: a card to print, which gives photos their scale.</summary>
internal sealed class ScaleCardCommand
{
    private static readonly CardPaper[] Papers = [CardPaper.A4, CardPaper.Letter];

    private readonly Session _session;

    private readonly Option<string> _out = new("--out")
    {
        Description = "PDF file to write; an existing one is replaced.",
        HelpName = "file",
        Required = true,
    };

    private readonly Option<string> _paper = new("--paper")
    {
        Description = "A4 or LETTER.",
        HelpName = "paper",
        DefaultValueFactory = _ => CardPaper.A4.Name,
    };

    private readonly Option<string> _vehicle = new("--vehicle")
    {
        Description = "Your reference of the vehicle; findings of photos with the card carry it.",
        HelpName = "ref",
        DefaultValueFactory = _ => "",
    };

    private readonly Option<string> _panel = new("--panel")
    {
        Description = "Your name of the panel; findings of photos with the card carry it.",
        HelpName = "ref",
        DefaultValueFactory = _ => "",
    };

    private ScaleCardCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var card = new ScaleCardCommand(session);
        var command = new Command(
            "scale-card",
            "Writes a card to print at 100 %: laid on the panel, it gives a photo its scale and its references.")
        {
            card._out,
            card._paper,
            card._vehicle,
            card._panel,
        };
        command.SetAction(card.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        string name = parsed.GetValue(_paper)!;
        CardPaper paper = Array.Find(Papers, one => one.Name.Equals(name, StringComparison.OrdinalIgnoreCase))
            ?? throw CommandException.Usage($"--paper takes A4 or LETTER, not '{name}'.");
        string path = parsed.GetValue(_out)!;
        var words = LanguageOption.Reader(parsed);
        try
        {
            var card = ScaleCard.Of(parsed.GetValue(_vehicle)!.Trim(), parsed.GetValue(_panel)!.Trim(), words.Fill);
            await File.WriteAllBytesAsync(path, ScaleCardPdf.Write(card, paper), cancellationToken);
        }
        catch (CoatScanException refusal)
        {
            throw CommandException.Usage(refusal.Message);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw CommandException.Usage($"--out: '{path}' cannot be written to: {failure.Message}");
        }

        await _session.Out.WriteLineAsync(words.Fill(
            "{0}: print at 100 %, without fitting to the page, and check the line of 100 mm with a rule.", path));
        return ExitCode.Done;
    }
}
