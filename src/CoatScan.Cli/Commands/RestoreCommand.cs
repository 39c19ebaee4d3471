using System.CommandLine;
using CoatScan.Cli.Text;
using CoatScan.Findings;
using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan restore</c>: makes a store from a copy that <c>backup</c> made.</summary>
internal sealed class RestoreCommand
{
    private readonly Session _session;
    private readonly StoreFolders _folders = new();

    private readonly Argument<string> _from = new("folder") { Description = "Folder that 'coatscan backup' wrote." };

    private RestoreCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var restore = new RestoreCommand(session);
        var command = new Command("restore", "Makes a store from a copy; where there is a store already, it changes nothing.")
        {
            restore._from,
        };
        restore._folders.AddTo(command);
        command.SetAction(restore.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var data = _folders.Data(parsed);
        try
        {
            var copy = await StoreCopies.RestoreAsync(parsed.GetValue(_from)!, data, _folders.Photos(parsed), cancellationToken);
            return await StoreCopyText.WriteAsync(_session, LanguageOption.Reader(parsed), "Restored to {0}: findings {1}, photos {2} ({3} MB).", data, copy);
        }
        catch (CoatScanException refusal)
        {
            throw CommandException.Failed(refusal.Message);
        }
    }
}
