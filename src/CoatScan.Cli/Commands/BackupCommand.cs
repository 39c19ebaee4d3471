using System.CommandLine;
using CoatScan.Cli.Text;
using CoatScan.Findings;
using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan backup</c>: copies findings and photos, also while the service runs.</summary>
internal sealed class BackupCommand
{
    private readonly Session _session;
    private readonly StoreFolders _folders = new();

    private readonly Option<string> _out = new("--out")
    {
        Description = "Folder for the copy; it must not exist, or be empty.",
        HelpName = "folder",
        Required = true,
    };

    private BackupCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var backup = new BackupCommand(session);
        var command = new Command("backup", "Copies findings and photos into a folder; the service may run meanwhile.")
        {
            backup._out,
        };
        backup._folders.AddTo(command);
        command.SetAction(backup.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var target = parsed.GetValue(_out)!;
        try
        {
            var copy = await StoreCopies.BackupAsync(_folders.Data(parsed), _folders.Photos(parsed), target, cancellationToken);
            return await StoreCopyText.WriteAsync(_session, LanguageOption.Reader(parsed), "Copied to {0}: findings {1}, photos {2} ({3} MB).", target, copy);
        }
        catch (CoatScanException refusal)
        {
            throw CommandException.Failed(refusal.Message);
        }
    }
}
