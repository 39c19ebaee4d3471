using CoatScan.Cli;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>What one run of the program left behind.</summary>
internal sealed record CommandLineRun(int Code, string Out, string Error)
{
    /// <summary>The lines of standard output.</summary>
    public string[] Lines => Out.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Runs the program in this process.</summary>
    public static Task<CommandLineRun> Of(params string[] args) => WithInput("", args);

    /// <summary>Runs the program in this process with something on standard input.</summary>
    public static async Task<CommandLineRun> WithInput(string input, params string[] args)
    {
        using var reader = new StringReader(input);
        await using var output = new StringWriter { NewLine = "\n" };
        await using var error = new StringWriter { NewLine = "\n" };
        var code = await CommandLineProgram.RunAsync(
            args, reader, output, error, TestContext.Current.CancellationToken);
        return new(code, output.ToString(), error.ToString());
    }
}
