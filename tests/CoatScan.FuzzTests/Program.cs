using Xunit.Runner.InProc.SystemConsole;

namespace CoatScan.FuzzTests;

/// <summary><c>fuzz ...</c> fuzzes for as long as it is told; anything else is the test runner's.</summary>
public static class Program
{
    /// <returns>0 nothing found, 1 something found, 2 usage; or what the test runner returns.</returns>
    public static Task<int> Main(string[] args) =>
        args is ["fuzz", .. var options] ? FuzzCommand.RunAsync(options, Console.Out, Console.Error) : ConsoleRunner.Run(args);
}
