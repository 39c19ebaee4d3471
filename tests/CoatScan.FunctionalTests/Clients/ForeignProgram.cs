using System.Diagnostics;

namespace CoatScan.FunctionalTests.Clients;

/// <summary>A program in another language, run to its end.</summary>
internal sealed record ForeignProgram(int Code, string Out, string Error)
{
    /// <summary>Where contract, examples and google's files lie to each other as in the repository.</summary>
    public static readonly string Root = Path.Combine(AppContext.BaseDirectory, "clients");

    public static readonly string GoogleProtos = Path.Combine(Root, "google-protos");

    public string[] Lines => Out.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    public static string Example(string name) => Path.Combine(Root, "demo", "clients", name);

    /// <summary>Runs a program; null if it is not installed.</summary>
    public static async Task<ForeignProgram?> TryRunAsync(string program, string[] args, params (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo(program, args) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        try
        {
            using var process = Process.Start(start)!;
            var output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
            var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            return new(process.ExitCode, await output, await error);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
