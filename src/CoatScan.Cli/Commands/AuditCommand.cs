using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Findings;
using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan audit verify</c>: whether the audit log is whole.</summary>
internal sealed class AuditCommand
{
    private readonly Session _session;
    private readonly Option<string?> _data = DataOption.Create();

    private AuditCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var audit = new AuditCommand(session);
        var verify = new Command("verify", "Says whether every entry of the audit log fits the one before it.") { audit._data };
        verify.SetAction(audit.VerifyAsync);
        return new Command("audit", "Checks the log of what was made and deleted by whom.") { verify };
    }

    private async Task<int> VerifyAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        AuditCheck found;
        try
        {
            found = await StoreAudit.VerifyAsync(UserFolder.Choose(parsed.GetValue(_data)), cancellationToken);
        }
        catch (CoatScanException refusal)
        {
            throw CommandException.Failed(refusal.Message);
        }

        if (found.FirstBroken is { } broken)
        {
            throw CommandException.Failed(
                $"Entry {broken} does not fit the one before it: it, or one before it, was changed, taken out or put in. "
                + $"The first {found.WholeCount} entries are whole.");
        }

        var words = LanguageOption.Reader(parsed);
        await _session.Out.WriteLineAsync(words.Fill("Whole: {0} entries, last hash {1}.", found.WholeCount, found.LastHash));
        await _session.Error.WriteLineAsync(
            words.Fill("Keep count and hash elsewhere: if entries are cut off the end, they are what shows it."));
        return ExitCode.Done;
    }
}
