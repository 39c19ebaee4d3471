using CoatScan.Cli.Commands;
using CoatScan.Cli.Json;
using CoatScan.Cli.Photos;
using CoatScan.Cli.Sheets;
using CoatScan.Cli.Text;
using CoatScan.Reports;

namespace CoatScan.Cli.Output;

/// <summary>Writes outcomes as they come, to standard output and to the folder of <c>--out</c> if there is one.</summary>
internal sealed class OutcomeReport
{
    private readonly Session _session;
    private readonly OutputFormat _format;
    private readonly string? _kind;
    private readonly OutFolder? _folder;
    private readonly SheetWriter? _sheets;
    private readonly bool _explain;
    private readonly SheetWords _words;
    private readonly List<OverviewRow> _rows = [];

    /// <summary>Prepares a report.</summary>
    /// <param name="session">Where to write.</param>
    /// <param name="format">How to write.</param>
    /// <param name="kind">What an error line names, <c>photo</c> or <c>case</c>; null to name nothing.</param>
    /// <param name="folder">The folder of <c>--out</c>, or null.</param>
    /// <param name="sheets">Writes the sheets beside, or null.</param>
    /// <param name="explain">Whether a page ends with the tables of the reasoning.</param>
    /// <param name="words">Language of the pages for people; English where it is null.</param>
    public OutcomeReport(
        Session session,
        OutputFormat format,
        string? kind,
        OutFolder? folder = null,
        SheetWriter? sheets = null,
        bool explain = false,
        SheetWords? words = null)
    {
        _words = words ?? SheetWords.English;
        _explain = explain;
        _session = session;
        _format = format;
        _kind = kind;
        _folder = folder;
        _sheets = sheets;
    }

    /// <summary>Whether any photo or case failed.</summary>
    public bool AnyFailed { get; private set; }

    /// <summary>Whether the service stopped answering.</summary>
    public bool AnyUnanswered { get; private set; }

    /// <summary>Writes what stands before the outcomes.</summary>
    public async Task BeginAsync(CancellationToken cancellationToken)
    {
        if (_format == OutputFormat.Csv)
        {
            await _session.Out.WriteAsync(FindingTable.Head().AsMemory(), cancellationToken);
        }
    }

    /// <summary>Writes one outcome.</summary>
    public async Task WriteAsync(PhotoOutcome outcome, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        AnyFailed |= outcome.Error is not null;
        AnyUnanswered |= outcome.Error is { IsNoAnswer: true };
        if (IsForPeople || _folder is not null)
        {
            _rows.Add(OverviewRow.Of(outcome, new ReaderWords(_words)));
        }

        var sheet = "";
        if (_folder is not null)
        {
            var stem = await _folder.AddAsync(outcome, Json(outcome), Page(outcome, Terminal.Plain), cancellationToken);
            sheet = _sheets is null ? "" : await _sheets.AddAsync(outcome, stem, cancellationToken);
        }

        if (_format == OutputFormat.Csv)
        {
            // A row brings its own end, which is that of CSV on every machine.
            await _session.Out.WriteAsync(Row(outcome).AsMemory(), cancellationToken);
        }
        else
        {
            await _session.Out.WriteLineAsync(Answer(outcome, sheet).AsMemory(), cancellationToken);
        }

        await _session.Out.FlushAsync(cancellationToken);
    }

    /// <summary>Writes the overview and the summary.</summary>
    public async Task FinishAsync(CancellationToken cancellationToken)
    {
        if (IsForPeople && _rows.Count > 1)
        {
            await _session.Out.WriteAsync(OverviewPage(_session.Terminal).AsMemory(), cancellationToken);
        }

        if (_folder is not null)
        {
            await _folder.FinishAsync(OverviewPage(Terminal.Plain), cancellationToken);
        }

        if (_sheets is not null)
        {
            await _sheets.FinishAsync(cancellationToken);
        }
    }

    /// <summary>The exit code that the outcomes mean.</summary>
    public int Code() => AnyUnanswered ? ExitCode.Unreachable : AnyFailed ? ExitCode.SomeFailed : ExitCode.Done;

    private bool IsForPeople => _format is OutputFormat.Text or OutputFormat.Html or OutputFormat.Pdf;

    private string Answer(PhotoOutcome outcome, string sheet) => _format switch
    {
        OutputFormat.Json => Json(outcome),
        OutputFormat.Html or OutputFormat.Pdf => outcome.Finding is { } finding
            ? $"{(sheet.Length > 0 ? sheet : outcome.Name)}: {VerdictText.Headline(finding, new ReaderWords(_words))}"
            : $"{outcome.Name}: {ErrorText.What(outcome.Error!, new ReaderWords(_words))}",
        _ => Page(outcome, _session.Terminal),
    };

    private static string Row(PhotoOutcome outcome) => FindingTable.Row(new(
        outcome.Name, outcome.Finding is { } finding ? FindingFromWire.Of(finding) : null, outcome.Error?.Message ?? ""));

    private string Json(PhotoOutcome outcome) => outcome.Finding is { } finding
        ? MessageJson.Line(finding)
        : ErrorJson.Line(outcome.Error!, _kind, outcome.Name);

    private string Page(PhotoOutcome outcome, Terminal terminal)
    {
        var page = new TextPage(terminal.WidthColumns, terminal.ColorOutput, _words);
        if (outcome.Finding is { } finding)
        {
            FindingText.Write(page, outcome.Name, finding);
            if (_explain)
            {
                ExplainText.Write(page, finding, terminal.WidthColumns);
            }
        }
        else
        {
            ErrorText.Write(page, outcome.Name, outcome.Error!);
        }

        return page.ToString();
    }

    private string OverviewPage(Terminal terminal)
    {
        var page = new TextPage(terminal.WidthColumns, terminal.ColorOutput, _words);
        OverviewText.Write(page, _rows, terminal.WidthColumns);
        return page.ToString();
    }
}
