using System.Diagnostics;

namespace CoatScan.FunctionalTests.CommandLine;

public sealed class CompletionTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("bash")]
    [InlineData("zsh")]
    [InlineData("fish")]
    [InlineData("pwsh")]
    public async Task Completion_prints_the_script_of_a_shell(string shell)
    {
        var run = await CommandLineRun.Of("completion", shell);

        Assert.Equal(0, run.Code);
        Assert.StartsWith("# In ", run.Out, StringComparison.Ordinal);
        Assert.Contains("[suggest:", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Completion_of_an_unknown_shell_names_those_there_are()
    {
        var run = await CommandLineRun.Of("completion", "tcsh");

        Assert.Equal(2, run.Code);
        Assert.Contains("'bash'", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("coatscan insp", "inspect")]
    [InlineData("coatscan inspect door.jpg --form", "--format")]
    [InlineData("coatscan inspect door.jpg --format ", "csv")]
    public async Task Program_suggests_what_the_script_asks_for(string line, string suggested)
    {
        var run = await CommandLineRun.Of($"[suggest:{line.Length}]", line);

        Assert.Contains(suggested, run.Lines);
    }

    [Fact]
    public async Task Bash_completes_a_command_with_the_script()
    {
        var script = (await CommandLineRun.Of("completion", "bash")).Out;
        using var bash = Process.Start(new ProcessStartInfo("bash", ["-c", BashTest])
        {
            RedirectStandardOutput = true,
            Environment = { ["SCRIPT"] = script, ["PROGRAM"] = Path.Combine(AppContext.BaseDirectory, "coatscan.dll") },
        })!;
        var said = await bash.StandardOutput.ReadToEndAsync(Token);
        await bash.WaitForExitAsync(Token);

        Assert.Equal("inspect", said.Trim());
    }

    // As a terminal does it: the line so far, its words, and where the cursor stands.
    private const string BashTest = """
        coatscan() { dotnet "$PROGRAM" "$@"; }
        eval "$SCRIPT"
        COMP_LINE='coatscan insp' COMP_POINT=13 COMP_WORDS=(coatscan insp) COMP_CWORD=1
        _coatscan
        echo "${COMPREPLY[@]}"
        """;
}
