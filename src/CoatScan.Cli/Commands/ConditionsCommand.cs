using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Json;
using CoatScan.Cli.Text;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan conditions</c>: what the service knows about paint conditions.</summary>
internal sealed class ConditionsCommand
{
    private const int PageSize = 500;
    private const string Prefix = "conditions/";

    private readonly Session _session;
    private readonly ServiceOptions _service = new();
    private readonly Option<OutputFormat?> _format = FormatOption.Create();

    private readonly Argument<string?> _id = new("id")
    {
        Description = "Id of one condition, to read all about it. Without it all conditions are listed.",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private ConditionsCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var conditions = new ConditionsCommand(session);
        var command = new Command("conditions", "Lists the paint conditions, or tells all about one.")
        {
            conditions._id,
            conditions._format,
        };
        conditions._service.AddTo(command);
        command.SetAction(conditions.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var json = parsed.GetValue(_format) == OutputFormat.Json;
        await using var service = await ServiceConnection.OpenAsync(_service.Read(parsed), cancellationToken);
        IReadOnlyList<Condition> found = parsed.GetValue(_id) is { } id
            ? [await GetAsync(service, id, cancellationToken)]
            : await ListAsync(service, cancellationToken);
        if (json)
        {
            foreach (var condition in found)
            {
                await _session.Out.WriteLineAsync(MessageJson.Line(condition));
            }

            return ExitCode.Done;
        }

        var page = new TextPage(_session.Terminal.WidthColumns, _session.Terminal.ColorOutput, LanguageOption.Of(parsed));
        if (parsed.GetValue(_id) is not null)
        {
            var all = await ListAsync(service, cancellationToken);
            ConditionText.WriteCard(page, found[0], all.ToDictionary(one => one.Name, one => one.DisplayName));
        }
        else
        {
            ConditionText.WriteTable(page, found, _session.Terminal.WidthColumns);
        }

        await _session.Out.WriteAsync(page.ToString());
        return ExitCode.Done;
    }

    private static async Task<Condition> GetAsync(
        ServiceConnection service, string id, CancellationToken cancellationToken)
    {
        var name = id.StartsWith(Prefix, StringComparison.Ordinal) ? id : Prefix + id;
        try
        {
            return await service.Knowledge.GetConditionAsync(
                new GetConditionRequest { Name = name },
                deadline: ServiceConnection.ControlDeadline(),
                cancellationToken: cancellationToken);
        }
        catch (RpcException failure) when (failure.StatusCode is StatusCode.NotFound or StatusCode.InvalidArgument)
        {
            throw CommandException.Failed($"There is no condition '{id}'. 'coatscan conditions' lists them.");
        }
    }

    private static async Task<IReadOnlyList<Condition>> ListAsync(
        ServiceConnection service, CancellationToken cancellationToken)
    {
        var all = new List<Condition>();
        var request = new ListConditionsRequest { PageSize = PageSize };
        do
        {
            var page = await service.Knowledge.ListConditionsAsync(
                request, deadline: ServiceConnection.ControlDeadline(), cancellationToken: cancellationToken);
            all.AddRange(page.Conditions);
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);

        return all;
    }
}
