using Xunit.Runner.InProc.SystemConsole;

namespace CoatScan.FuzzTests;

/// <summary><c>fuzz ...</c> fuzzes for as long as it is told, <c>replay ...</c> gives inputs once more; anything else is the test runner's.</summary>
public static class Program
{
    /// <returns>0 nothing found, 1 something found, 2 usage; or what the test runner returns.</returns>
    public static Task<int> Main(string[] args) => args switch
    {
        ["fuzz", .. var options] => FuzzCommand.RunAsync(options, Console.Out, Console.Error),
        ["replay", .. var words] => ReplayCommand.RunAsync(words, Console.Out, Console.Error),
        _ => ConsoleRunner.Run(args),
    };
}
