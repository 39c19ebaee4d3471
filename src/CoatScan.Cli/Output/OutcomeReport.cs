using CoatScan.Cli.Commands;
using CoatScan.Cli.Json;
using CoatScan.Cli.Photos;
using CoatScan.Cli.Text;

namespace CoatScan.Cli.Output;

/// <summary>Writes outcomes as they come, to standard output and to the folder of <c>--out</c> if there is one.</summary>
internal sealed class OutcomeReport
{
    private readonly Session _session;
    private readonly OutputFormat _format;
    private readonly string? _kind;
    private readonly OutFolder? _folder;
    private readonly bool _explain;
    private readonly List<OverviewRow> _rows = [];

    /// <summary>Prepares a report.</summary>
    /// <param name="session">Where to write.</param>
    /// <param name="format">How to write.</param>
    /// <param name="kind">What an error line names, <c>photo</c> or <c>case</c>; null to name nothing.</param>
    /// <param name="folder">The folder of <c>--out</c>, or null.</param>
    /// <param name="explain">Whether a page ends with the tables of the reasoning.</param>
    public OutcomeReport(
        Session session,
        OutputFormat format,
        string? kind,
        OutFolder? folder = null,
        bool explain = false)
    {
        _explain = explain;
        _session = session;
        _format = format;
        _kind = kind;
        _folder = folder;
    }

    /// <summary>Whether any photo or case failed.</summary>
    public bool AnyFailed { get; private set; }

    /// <summary>Whether the service stopped answering.</summary>
    public bool AnyUnanswered { get; private set; }

    /// <summary>Writes one outcome.</summary>
    public async Task WriteAsync(PhotoOutcome outcome, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        AnyFailed |= outcome.Error is not null;
        AnyUnanswered |= outcome.Error is { IsNoAnswer: true };
        if (_format == OutputFormat.Text || _folder is not null)
        {
            _rows.Add(OverviewRow.Of(outcome));
        }

        var text = _format == OutputFormat.Json ? Json(outcome) : Page(outcome, _session.Terminal);
        await _session.Out.WriteLineAsync(text.AsMemory(), cancellationToken);
        await _session.Out.FlushAsync(cancellationToken);
        if (_folder is not null)
        {
            await _folder.AddAsync(outcome, Json(outcome), Page(outcome, Terminal.Plain), cancellationToken);
        }
    }

    /// <summary>Writes the overview and the summary.</summary>
    public async Task FinishAsync(CancellationToken cancellationToken)
    {
        if (_format == OutputFormat.Text && _rows.Count > 1)
        {
            await _session.Out.WriteAsync(Overview(_session.Terminal).AsMemory(), cancellationToken);
        }

        if (_folder is not null)
        {
            await _folder.FinishAsync(Overview(Terminal.Plain), cancellationToken);
        }
    }

    /// <summary>The exit code that the outcomes mean.</summary>
    public int Code() => AnyUnanswered ? ExitCode.Unreachable : AnyFailed ? ExitCode.SomeFailed : ExitCode.Done;

    private string Json(PhotoOutcome outcome) => outcome.Finding is { } finding
        ? MessageJson.Line(finding)
        : ErrorJson.Line(outcome.Error!, _kind, outcome.Name);

    private string Page(PhotoOutcome outcome, Terminal terminal)
    {
        var page = new TextPage(terminal.WidthColumns, terminal.ColorOutput);
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

    private string Overview(Terminal terminal)
    {
        var page = new TextPage(terminal.WidthColumns, terminal.ColorOutput);
        OverviewText.Write(page, _rows, terminal.WidthColumns);
        return page.ToString();
    }
}
