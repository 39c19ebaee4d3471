using System.CommandLine;
using CoatScan.Cli.Batches;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Sheets;
using CoatScan.Cli.Text;
using CoatScan.Client;
using CoatScan.Reports;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan batch</c>: a folder of vehicles in, findings and a summary out; resumable at any moment.</summary>
internal sealed class BatchCommand
{
    private readonly Session _session;
    private readonly ServiceOptions _service = new();
    private readonly Option<OutputFormat?> _format = FormatOption.CreateWithSheets();
    private readonly Option<IReadOnlyList<SheetKind>?> _sheets = SheetsOption.CreateForBatch();
    private readonly Option<Paper?> _paper = PaperOption.Create();

    private readonly Argument<string> _folder = new("folder")
    {
        Description = "Folder with one subfolder a vehicle. A photo in it is a panel of its own; a subfolder of it is one panel.",
        HelpName = "folder",
    };

    private readonly Option<string?> _out = new("--out")
    {
        Description = "Folder for findings.ndjson, summary.csv, summary.html, summary.txt and sheets, besides the output here.",
        HelpName = "folder",
    };

    private readonly Option<bool> _retry = new("--retry")
    {
        Description = "Try the failed panels of a batch that came to its end again.",
    };

    private BatchCommand(Session session) => _session = session;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var batch = new BatchCommand(session);
        var command = new Command(
            "batch",
            "Grades a folder of vehicles, worst first. Started again after any stop, it goes on where it was.")
        {
            batch._folder,
            batch._retry,
            batch._format,
            batch._out,
            batch._sheets,
            batch._paper,
        };
        batch._service.AddTo(command);
        command.SetAction(batch.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var folder = parsed.GetRequiredValue(_folder);
        var format = parsed.GetValue(_format) ?? OutputFormat.Text;
        var panels = BatchFolder.Read(folder);
        var output = Output(parsed, format);

        await using var service = await ServiceConnection.OpenAsync(
            _service.Read(parsed) with { GradeBatches = true }, cancellationToken);
        try
        {
            var plan = await BatchPlan.MakeAsync(panels, service.Info, cancellationToken);
            var upload = new BatchUpload(service);
            var photos = plan.Panels.SelectMany(panel => panel.Photos).ToList();
            await BatchProgress.RunAsync(_session, format, photos.Count, "{0} of {1} photos sent", output.Words, progress =>
            {
                var done = 0;
                return upload.RunAsync(photos, () => progress(++done), cancellationToken);
            });
            if (photos.All(photo => upload.ErrorOf(photo) is not null))
            {
                return await FinishAsync(new BatchReport(service, plan, upload), new Batch(), [], output, cancellationToken);
            }

            var run = new BatchRun(service, plan, upload);
            var name = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));
            var batch = await run.StartAsync(name, parsed.GetValue(_retry), cancellationToken);
            await BatchProgress.RunAsync(_session, format, batch.ItemCount, "{0} of {1} panels graded", output.Words, progress =>
                run.WatchAsync(
                    now => progress((batch = now).GradedCount + now.FailedCount + now.CancelledCount), cancellationToken));

            var report = new BatchReport(service, plan, upload);
            var vehicles = await report.VehiclesAsync(cancellationToken);
            return await FinishAsync(report, batch, vehicles, output, cancellationToken);
        }
        catch (RpcException failure) when (failure.StatusCode != StatusCode.Cancelled)
        {
            throw Complaint(service, failure.StatusCode, failure.Status.Detail, failure);
        }
        catch (CoatScanCallException failure)
        {
            throw Complaint(service, failure.StatusCode, failure.Message, failure);
        }
        catch (Exception stop) when (cancellationToken.IsCancellationRequested
            && stop is OperationCanceledException or RpcException)
        {
            throw CommandException.Failed("Stopped. The same command goes on where it was.");
        }
    }

    private BatchOutput Output(ParseResult parsed, OutputFormat format)
    {
        var kinds = parsed.GetValue(_sheets);
        var path = parsed.GetValue(_out);
        if (path is null && (format is OutputFormat.Html or OutputFormat.Pdf || kinds is not null))
        {
            var option = kinds is null ? $"--format {format.ToString().ToLowerInvariant()}" : "--sheets";
            throw CommandException.Usage($"{option} writes files: name a folder for them with --out.");
        }

        var choice = new SheetChoice(kinds ?? [SheetKind.Vehicle], format == OutputFormat.Pdf, parsed.GetValue(_paper) ?? Paper.A4)
        {
            Words = LanguageOption.Of(parsed),
        };
        return new(format, choice, path is null ? null : BatchOutFolder.Open(path));
    }

    private static CommandException Complaint(
        ServiceConnection service, StatusCode code, string detail, Exception failure) =>
        code is StatusCode.Unavailable or StatusCode.DeadlineExceeded or StatusCode.ResourceExhausted
            ? CommandException.Unreachable(
                $"{Phrase.Capital(service.Where)} stopped answering. The same command goes on where it was.", failure)
            : CommandException.Failed($"{Phrase.Capital(service.Where)} refuses the batch: {detail}");

    private async Task<int> FinishAsync(
        BatchReport report,
        Batch batch,
        IReadOnlyList<VehicleSummary> vehicles,
        BatchOutput output,
        CancellationToken cancellationToken)
    {
        var refused = report.Refused.ToList();
        string Text(Terminal terminal)
        {
            var page = new TextPage(terminal.WidthColumns, terminal.ColorOutput, output.Choice.Words);
            VehicleText.Write(page, terminal.WidthColumns, batch, vehicles, refused, report.NameOf);
            return page.ToString();
        }

        if (output.Folder is { } folder)
        {
            await folder.WriteAsync("findings.ndjson", file => WriteLinesAsync(report, batch, file, cancellationToken));
            await folder.WriteAsync("summary.csv", file => file.WriteAsync(VehicleCsv.Write(vehicles, report.NameOf)));
            await folder.WriteAsync("summary.txt", file => file.WriteAsync(Text(Terminal.Plain)));
            await BatchProgress.RunAsync(_session, output.Format, vehicles.Count, "{0} of {1} vehicles on sheets", output.Words, progress =>
            {
                var done = 0;
                return new BatchSheets(folder, output.Choice, report).WriteAsync(vehicles, () => progress(++done), cancellationToken);
            });
        }

        switch (output.Format)
        {
            case OutputFormat.Json:
                await WriteLinesAsync(report, batch, _session.Out, cancellationToken);
                break;
            case OutputFormat.Csv:
                await _session.Out.WriteAsync(VehicleCsv.Write(vehicles, report.NameOf).AsMemory(), cancellationToken);
                break;
            default:
                await _session.Out.WriteAsync(Text(_session.Terminal).AsMemory(), cancellationToken);
                break;
        }

        return refused.Count + batch.FailedCount + batch.CancelledCount > 0 ? ExitCode.SomeFailed : ExitCode.Done;
    }

    private static async Task WriteLinesAsync(
        BatchReport report, Batch batch, TextWriter output, CancellationToken cancellationToken)
    {
        await foreach (var line in report.LinesAsync(batch.ItemCount > 0, cancellationToken))
        {
            await output.WriteLineAsync(line.AsMemory(), cancellationToken);
        }
    }
}
