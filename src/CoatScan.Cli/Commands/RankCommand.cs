using System.CommandLine;
using System.Globalization;
using System.Threading.Channels;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Json;
using CoatScan.Cli.Output;
using CoatScan.Cli.Photos;
using CoatScan.Cli.Text;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan rank</c>: evidence and readings in, findings out, without a photo.</summary>
internal sealed class RankCommand
{
    private const string StandardInput = "-";
    private const int MostInFlight = 8;

    // A case is a few hundred characters; this bounds what one line can make the program hold.
    private const int LongestCase = 1024 * 1024;

    private readonly Session _session;
    private readonly ServiceOptions _service = new();
    private readonly SheetOptions _sheets = new("case");

    private readonly Option<bool> _explain = new("--explain")
    {
        Description = "Adds the reasoning as tables: every weight, the sums, the shares that follow, the gain of each test.",
    };

    private readonly Argument<string[]> _cases = new("case")
    {
        Description = "Files with one case each; or - to read one case a line from standard input and answer "
            + "one finding a line, in order.",
        HelpName = "case.json|-",
        Arity = ArgumentArity.OneOrMore,
    };

    private RankCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var rank = new RankCommand(session);
        var command = new Command(
            "rank",
            "Ranks conditions and causes from evidence and readings, without a photo. What was not read is null or left out. A case is a JSON object:\n"
            + "{\"evidence\":[\"form.rings\"],\"measurements\":{\"filmUm\":[118,125],\"gloss60\":22,\"deltaE00\":1.5,\n"
            + " \"faultDepthUm\":2,\"filmPanels\":[{\"panel\":\"roof\",\"filmUm\":[110]}]},\n"
            + " \"statements\":[{\"evidence\":\"history.sudden\",\"saidBy\":\"owner\"}],\"appliedOn\":\"2026-05-01\",\n"
            + " \"panel\":\"hood\",\"externalRef\":\"lot 7\"}")
        {
            rank._cases.RefuseUnknownOptions(),
            rank._explain,
        };
        rank._sheets.AddTo(command);
        rank._service.AddTo(command);
        command.Validators.Add(result =>
        {
            if (result.GetResult(rank._cases) is { Tokens.Count: > 1 } cases
                && cases.Tokens.Any(token => token.Value == StandardInput))
            {
                result.AddError("- reads the cases from standard input; it cannot go with files.");
            }
        });
        command.SetAction(rank.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var files = parsed.GetValue(_cases) ?? [];
        var lines = files is [StandardInput];
        var explain = parsed.GetValue(_explain);
        var format = _sheets.Format(parsed) ?? (lines && !explain ? OutputFormat.Json : OutputFormat.Text);
        var (folder, sheets) = _sheets.Open(parsed, format, lines ? null : files.Length);
        using var closing = folder;
        var report = new OutcomeReport(_session, format, kind: lines ? null : "case", folder, sheets, explain, LanguageOption.Of(parsed));

        await using var service = await ServiceConnection.OpenAsync(_service.Read(parsed), cancellationToken);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        await report.BeginAsync(cancellationToken);
        var ranked = Channel.CreateBounded<Task<PhotoOutcome>>(MostInFlight);

        // Reading standard input blocks and cannot be stopped, so it has its own thread and nobody waits for it.
        _ = Task.Run(
            () => FeedAsync(service, lines ? Lines() : Files(files, stop.Token), ranked.Writer, stop.Token),
            CancellationToken.None);
        try
        {
            await foreach (var outcome in ranked.Reader.ReadAllAsync(cancellationToken))
            {
                await report.WriteAsync(await outcome, cancellationToken);
            }
        }
        finally
        {
            await stop.CancelAsync();
        }

        // A stream of lines is answered line by line and nothing after; a folder is finished whatever it came from.
        if (!lines || folder is not null)
        {
            await report.FinishAsync(cancellationToken);
        }

        if (report.AnyUnanswered)
        {
            await _session.Error.WriteLineAsync(LanguageOption.Reader(parsed).Complain(
                $"{Phrase.Capital(service.Where)} stopped answering; some cases have no finding."));
        }

        return report.Code();
    }

    private static async Task FeedAsync(
        ServiceConnection service,
        IAsyncEnumerable<(string Name, string? Json, ServiceError? Error)> cases,
        ChannelWriter<Task<PhotoOutcome>> ranked,
        CancellationToken cancellationToken)
    {
        Exception? failure = null;
        try
        {
            await foreach (var (name, json, error) in cases.WithCancellation(cancellationToken))
            {
                var outcome = error is null
                    ? RankAsync(service, name, json!, cancellationToken)
                    : Task.FromResult(new PhotoOutcome(name, null, error));
                await ranked.WriteAsync(outcome, cancellationToken);
            }
        }
        catch (Exception fault)
        {
            // It must come out where the outcomes are read, not vanish on this thread.
            failure = fault;
        }

        ranked.Complete(failure);
    }

    private async IAsyncEnumerable<(string Name, string? Json, ServiceError? Error)> Lines()
    {
        var number = 0;
        while (await _session.In.ReadLineAsync() is { } line)
        {
            number++;
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            var name = string.Create(CultureInfo.InvariantCulture, $"line {number}");
            yield return line.Length > LongestCase ? (name, null, TooLong()) : (name, line, null);
        }
    }

    private static async IAsyncEnumerable<(string Name, string? Json, ServiceError? Error)> Files(
        string[] paths,
        [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellationToken)
    {
        foreach (var path in paths)
        {
            yield return await ReadAsync(path, cancellationToken);
        }
    }

    private static async Task<(string Name, string? Json, ServiceError? Error)> ReadAsync(
        string path, CancellationToken cancellationToken)
    {
        try
        {
            return new FileInfo(path) is { Exists: true, Length: > LongestCase }
                ? (path, null, TooLong())
                : (path, await File.ReadAllTextAsync(path, cancellationToken), null);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return (path, null, PhotoFile.Unreadable(failure));
        }
    }

    private static async Task<PhotoOutcome> RankAsync(
        ServiceConnection service, string name, string json, CancellationToken cancellationToken)
    {
        var (facts, error) = RankCase.Read(json);
        if (facts is null)
        {
            return new(name, null, error);
        }

        try
        {
            var finding = await service.Findings.RankCausesAsync(
                new RankCausesRequest { Facts = facts },
                deadline: ServiceConnection.ControlDeadline(),
                cancellationToken: cancellationToken);
            return new(name, finding, null);
        }
        catch (RpcException failure)
        {
            cancellationToken.ThrowIfCancellationRequested();
            return new(name, null, ServiceError.Of(failure));
        }
    }

    private static ServiceError TooLong() =>
        ServiceError.Invalid("FIELD_INVALID", "The case is longer than 1 MiB.");
}
