using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Json;
using CoatScan.V1;
using Grpc.Core;
using static CoatScan.V1.VerifyFindingResponse.Types;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan verify</c>: whether a stored finding comes out the same when it is made again.</summary>
internal sealed class VerifyCommand
{
    private readonly Session _session;
    private readonly ServiceOptions _service = new();
    private readonly Option<OutputFormat?> _format = FormatOption.Create();
    private readonly Argument<string> _finding = new("finding") { Description = "Name of the finding, findings/ID, or its ID alone." };

    private VerifyCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var verify = new VerifyCommand(session);
        var command = new Command(
            "verify", "Makes a stored finding again, from its stored photos, and says whether it comes out the same.")
        {
            verify._finding,
            verify._format,
        };
        verify._service.AddTo(command);
        command.SetAction(verify.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        const string prefix = "findings/";
        var given = parsed.GetValue(_finding)!;
        var name = given.StartsWith(prefix, StringComparison.Ordinal) ? given : prefix + given;
        await using var service = await ServiceConnection.OpenAsync(_service.Read(parsed), cancellationToken);
        VerifyFindingResponse answer;
        try
        {
            answer = await service.Findings.VerifyFindingAsync(
                new VerifyFindingRequest { Name = name },
                deadline: ServiceConnection.PhotoDeadline(),
                cancellationToken: cancellationToken);
        }
        catch (RpcException failure) when (failure.StatusCode is StatusCode.NotFound or StatusCode.InvalidArgument)
        {
            throw CommandException.Failed(ServiceError.Of(failure).Message);
        }

        if (parsed.GetValue(_format) == OutputFormat.Json)
        {
            await _session.Out.WriteLineAsync(MessageJson.Line(answer));
        }
        else
        {
            foreach (var line in Lines(name, answer))
            {
                await _session.Out.WriteLineAsync(line);
            }
        }

        return answer.Outcome == Outcome.Same ? ExitCode.Done : ExitCode.SomeFailed;
    }

    private static IEnumerable<string> Lines(string name, VerifyFindingResponse answer) => answer.Outcome switch
    {
        Outcome.Same => [$"Same: {name} comes out the same."],
        Outcome.Different =>
        [
            $"Different: {name} comes out otherwise in {answer.Differences.Count} places.",
            .. answer.Differences.Select(one => $"  {one.Field}: {Shown(one.Stored)} was stored, now {Shown(one.Now)}"),
        ],
        _ => [$"Not comparable: {name} cannot be made again.", .. answer.Obstacles.Select(one => $"  {one}")],
    };

    private static string Shown(string json) => json.Length == 0 ? "nothing" : json;
}
