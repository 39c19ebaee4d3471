using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Json;
using CoatScan.Cli.Text;
using CoatScan.V1;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan evidence</c>: the words that a caller can use.</summary>
internal sealed class EvidenceCommand
{
    private readonly Session _session;
    private readonly ServiceOptions _service = new();
    private readonly Option<OutputFormat?> _format = FormatOption.Create();

    private readonly Argument<string?> _group = new("group")
    {
        Description = "Only this group, for example form or test. Without it all groups are listed.",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private EvidenceCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var evidence = new EvidenceCommand(session);
        var command = new Command("evidence", "Lists the ids that --evidence and a case can hold, with their meaning.")
        {
            evidence._group,
            evidence._format,
        };
        evidence._service.AddTo(command);
        command.SetAction(evidence.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        await using var service = await ServiceConnection.OpenAsync(_service.Read(parsed), cancellationToken);
        var all = await ListAsync(service, cancellationToken);
        var group = parsed.GetValue(_group);
        var terms = group is null ? all : [.. all.Where(term => term.Group == group)];
        if (terms.Count == 0)
        {
            var groups = string.Join(", ", all.Select(term => term.Group).Distinct());
            throw CommandException.Failed($"There is no group '{group}'. The groups are {groups}.");
        }

        if (parsed.GetValue(_format) == OutputFormat.Json)
        {
            foreach (var term in terms)
            {
                await _session.Out.WriteLineAsync(MessageJson.Line(term));
            }

            return ExitCode.Done;
        }

        var page = new TextPage(_session.Terminal.WidthColumns, _session.Terminal.ColorOutput, LanguageOption.Of(parsed));
        EvidenceText.Write(page, terms, _session.Terminal.WidthColumns);
        await _session.Out.WriteAsync(page.ToString());
        return ExitCode.Done;
    }

    private static async Task<List<EvidenceTerm>> ListAsync(
        ServiceConnection service, CancellationToken cancellationToken)
    {
        var all = new List<EvidenceTerm>();
        var request = new ListEvidenceRequest();
        do
        {
            var page = await service.Knowledge.ListEvidenceAsync(
                request, deadline: ServiceConnection.ControlDeadline(), cancellationToken: cancellationToken);
            all.AddRange(page.Evidence);
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);

        return all;
    }
}
