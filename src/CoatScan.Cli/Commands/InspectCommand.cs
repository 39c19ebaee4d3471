using System.CommandLine;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Output;
using CoatScan.Cli.Photos;
using CoatScan.Cli.Text;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan inspect</c>: photos in, findings out.</summary>
internal sealed class InspectCommand
{
    private readonly Session _session;
    private readonly FactsOptions _facts = new();
    private readonly ServiceOptions _service = new();
    private readonly Option<ZonePair?> _zones = ZonesOption.Create();
    private readonly SheetOptions _sheets = new("photo");

    private readonly Argument<string[]> _photos = new("photo")
    {
        Description = "Photos (JPEG or PNG), or folders: a folder stands for all photos in it and below it.",
        HelpName = "photo|folder",
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<bool> _samePanel = new("--same-panel")
    {
        Description = "All photos show one panel: one finding for all, at most 12 photos.",
    };

    private InspectCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var inspect = new InspectCommand(session);
        var command = new Command("inspect", "Says what photos of painted panels show: one finding a photo, in order.")
        {
            inspect._photos.RefuseUnknownOptions(),
            inspect._samePanel,
        };
        inspect._facts.AddTo(command);
        command.Options.Add(inspect._zones);
        inspect._sheets.AddTo(command);
        inspect._service.AddTo(command);
        command.SetAction(inspect.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var facts = _facts.Read(parsed);
        var zones = parsed.GetValue(_zones);
        var places = PhotoSearch.Find(parsed.GetValue(_photos) ?? []);
        if (zones is not null && places.Count > 1 && !parsed.GetValue(_samePanel))
        {
            throw CommandException.Usage($"--compare-zones takes one photo, or --same-panel; {places.Count} photos are given.");
        }

        var format = _sheets.Format(parsed) ?? OutputFormat.Text;
        var (folder, sheets) = _sheets.Open(parsed, format, parsed.GetValue(_samePanel) ? 1 : places.Count);
        using var closing = folder;
        var report = new OutcomeReport(_session, format, kind: "photo", folder, sheets, words: LanguageOption.Of(parsed));

        await using var service = await ServiceConnection.OpenAsync(_service.Read(parsed), cancellationToken);
        await CheckFactsAsync(service, facts, cancellationToken);
        await report.BeginAsync(cancellationToken);
        if (parsed.GetValue(_samePanel))
        {
            await InspectPanelAsync(service, places, facts, zones, report, cancellationToken);
        }
        else
        {
            await ProgressBar.RunAsync(_session, places.Count, LanguageOption.Reader(parsed), async done =>
            {
                await foreach (var outcome in new PhotoStream(service, places, facts, zones).RunAsync(cancellationToken))
                {
                    await report.WriteAsync(outcome, cancellationToken);
                    done();
                }
            });
        }

        await report.FinishAsync(cancellationToken);
        if (report.AnyUnanswered)
        {
            await _session.Error.WriteLineAsync(LanguageOption.Reader(parsed).Complain(
                $"{Phrase.Capital(service.Where)} stopped answering; some photos have no finding."));
        }

        return report.Code();
    }

    private static async Task InspectPanelAsync(
        ServiceConnection service,
        IReadOnlyList<PhotoPlace> places,
        PanelFacts facts,
        ZonePair? zones,
        OutcomeReport report,
        CancellationToken cancellationToken)
    {
        var most = service.Info.MaxPanelPhotoCount;
        if (places.Count > most)
        {
            throw CommandException.Usage($"--same-panel takes 1 to {most} photos; {places.Count} are given.");
        }

        foreach (var outcome in await new PanelCall(service, facts, zones).RunAsync(places, cancellationToken))
        {
            await report.WriteAsync(outcome, cancellationToken);
        }
    }

    /// <summary>Asks about the facts first: a misspelled id is one complaint, not one for each photo.</summary>
    private static async Task CheckFactsAsync(
        ServiceConnection service, PanelFacts facts, CancellationToken cancellationToken)
    {
        if (facts.Evidence.Count == 0 && facts.Statements.Count == 0)
        {
            return;
        }

        var withoutPhoto = facts.Clone();
        withoutPhoto.ClearMmPerPx();
        try
        {
            await service.Findings.RankCausesAsync(
                new RankCausesRequest { Facts = withoutPhoto, ValidateOnly = true },
                deadline: ServiceConnection.ControlDeadline(),
                cancellationToken: cancellationToken);
        }
        catch (RpcException failure) when (failure.StatusCode == StatusCode.InvalidArgument)
        {
            throw CommandException.Usage(
                $"--evidence: {ServiceError.Of(failure).Message} 'coatscan evidence' lists the ids.");
        }
        catch (RpcException failure) when (failure.StatusCode != StatusCode.Cancelled)
        {
            throw CommandException.Unreachable(
                $"{Phrase.Capital(service.Where)} does not answer: {failure.Status.Detail}", failure);
        }
    }
}
