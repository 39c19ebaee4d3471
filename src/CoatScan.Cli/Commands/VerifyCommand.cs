using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Json;
using CoatScan.Cli.Text;
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
            foreach (var line in Lines(name, answer, LanguageOption.Reader(parsed)))
            {
                await _session.Out.WriteLineAsync(line);
            }
        }

        return answer.Outcome == Outcome.Same ? ExitCode.Done : ExitCode.SomeFailed;
    }

    private static IEnumerable<string> Lines(string name, VerifyFindingResponse answer, ReaderWords words) => answer.Outcome switch
    {
        Outcome.Same => [words.Fill("Same: {0} comes out the same.", name)],
        Outcome.Different =>
        [
            words.Fill("Different: {0} comes out otherwise in {1} places.", name, answer.Differences.Count),
            .. answer.Differences.Select(one =>
                "  " + words.Fill("{0}: {1} was stored, now {2}", one.Field, Shown(one.Stored, words), Shown(one.Now, words))),
        ],
        _ => [words.Fill("Not comparable: {0} cannot be made again.", name), .. answer.Obstacles.Select(one => "  " + words.Complain(one))],
    };

    private static string Shown(string json, ReaderWords words) => json.Length == 0 ? words.Fill("nothing") : json;
}
