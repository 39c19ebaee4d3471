namespace CoatScan.Cli;

/// <summary>What the program knows about the screen it writes to.</summary>
/// <param name="WidthColumns">Columns to wrap text at, 40 or more.</param>
/// <param name="ColorOutput">Whether standard output may carry terminal styles.</param>
/// <param name="ShowProgress">Whether a progress bar on standard error disturbs nobody.</param>
public sealed record Terminal(int WidthColumns, bool ColorOutput, bool ShowProgress)
{
    // Longer lines are hard to read aloud; shorter ones break the label column.
    private const int WidestColumns = 100;
    private const int NarrowestColumns = 40;

    /// <summary>A file or a pipe: 80 columns, no style, no progress bar.</summary>
    public static Terminal Plain { get; } = new(80, ColorOutput: false, ShowProgress: false);

    /// <summary>Whether standard error goes to a screen that can show a bar, whatever becomes of standard output.</summary>
    public bool ErrorIsScreen { get; init; }

    /// <summary>The terminal of this process, by its standard streams and <c>NO_COLOR</c>.</summary>
    public static Terminal OfThisProcess()
    {
        var dumb = !OperatingSystem.IsWindows()
            && Environment.GetEnvironmentVariable("TERM") is (null or "" or "dumb");
        var screen = !Console.IsErrorRedirected && !dumb;
        if (Console.IsOutputRedirected)
        {
            return Plain with { ShowProgress = screen, ErrorIsScreen = screen };
        }

        var noColor = dumb || !string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"));

        // Findings that scroll by show the progress themselves; a bar would be drawn into them.
        return new(ReadWidth(), ColorOutput: !noColor, ShowProgress: false) { ErrorIsScreen = screen };
    }

    private static int ReadWidth()
    {
        try
        {
            return Console.WindowWidth is var width && width > 0
                ? Math.Clamp(width - 1, NarrowestColumns, WidestColumns)
                : Plain.WidthColumns;
        }
        catch (IOException)
        {
            return Plain.WidthColumns;
        }
    }
}
