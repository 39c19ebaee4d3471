using CoatScan.Cli.Text;
using Spectre.Console;

namespace CoatScan.Cli.Output;

/// <summary>A progress bar on standard error.</summary>
internal static class ProgressBar
{
    /// <summary>Does the work, with a bar where one is wanted.</summary>
    /// <param name="session">Where to draw.</param>
    /// <param name="count">Number of photos.</param>
    /// <param name="words">The language.</param>
    /// <param name="work">The work; it calls the given action once for each photo that is done.</param>
    public static async Task RunAsync(Session session, int count, ReaderWords words, Func<Action, Task> work)
    {
        if (!session.Terminal.ShowProgress || count < 2)
        {
            await work(() => { });
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
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new RemainingTimeColumn())
            .StartAsync(async context =>
            {
                var bar = context.AddTask(Label(0, count, words), maxValue: count);
                var done = 0;
                await work(() =>
                {
                    done++;
                    bar.Description = Label(done, count, words);
                    bar.Increment(1);
                });
            });
    }

    private static string Label(int done, int count, ReaderWords words) => words.Fill("{0} of {1} photos", done, count);
}
