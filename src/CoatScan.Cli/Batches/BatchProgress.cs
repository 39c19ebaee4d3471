using System.Diagnostics;
using System.Globalization;
using CoatScan.Cli.Commands;
using CoatScan.Cli.Text;
using Spectre.Console;

namespace CoatScan.Cli.Batches;

/// <summary>A line on standard error that shows how far a batch is, how fast it goes and how long it will take.</summary>
internal static class BatchProgress
{
    /// <summary>Does the work, with a line where somebody can see it.</summary>
    /// <param name="session">Where to draw.</param>
    /// <param name="format">Format of the output: lines of JSON or CSV on the same screen would be drawn into.</param>
    /// <param name="count">How many there are in all.</param>
    /// <param name="what">What is counted, as a sentence with two blanks: how many are done, and of how many.</param>
    /// <param name="words">The language.</param>
    /// <param name="work">The work; it tells how many are done whenever that changes.</param>
    public static async Task RunAsync(
        Session session, OutputFormat format, int count, string what, ReaderWords words, Func<Action<int>, Task> work)
    {
        if (!(session.Terminal.ShowProgress || (session.Terminal.ErrorIsScreen && format is not (OutputFormat.Json or OutputFormat.Csv))))
        {
            await work(_ => { });
            return;
        }

        // That the screen can show it is decided already; left to itself the console looks at standard output.
        var console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Out = new AnsiConsoleOutput(session.Error),
            Ansi = AnsiSupport.Yes,
            Interactive = InteractionSupport.Yes,
        });
        await console.Progress()
            .AutoClear(true)
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn())
            .StartAsync(async context =>
            {
                var bar = context.AddTask(Label(0, count, what, words, null), maxValue: Math.Max(1, count));
                var pace = new Pace();
                await work(done =>
                {
                    bar.Value = done;
                    bar.Description = Label(done, count, what, words, pace.PerSecond(done));
                });
            });
    }

    private static string Label(int done, int count, string what, ReaderWords words, double? perSecond)
    {
        var label = words.Fill(what, done, count);
        if (perSecond is not { } rate || done >= count)
        {
            return label;
        }

        var left = TimeSpan.FromSeconds(Math.Ceiling((count - done) / rate));
        return $"{label}, {words.Fill("{0} a second, {1} left", rate.ToString("0.0", words.Format.Marks), left.ToString(@"h\:mm\:ss", CultureInfo.InvariantCulture))}";
    }

    /// <summary>The mean pace of this run. What was done before it comes first and at once, and does not count.</summary>
    private sealed class Pace
    {
        private static readonly TimeSpan Before = TimeSpan.FromSeconds(1);

        private readonly long _start = Stopwatch.GetTimestamp();
        private int _doneBefore;

        public double? PerSecond(int done)
        {
            var elapsed = Stopwatch.GetElapsedTime(_start);
            if (elapsed < Before)
            {
                _doneBefore = done;
                return null;
            }

            return done > _doneBefore ? (done - _doneBefore) / (elapsed - Before + TimeSpan.FromSeconds(0.5)).TotalSeconds : null;
        }
    }
}
