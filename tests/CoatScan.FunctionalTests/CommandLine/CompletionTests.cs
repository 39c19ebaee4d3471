using System.Diagnostics;
using CoatScan.FunctionalTests.Clients;

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

    [Fact]
    public async Task Zsh_completes_a_command_with_the_script()
    {
        using var folder = new TempFolder();
        var said = await RunAsync("zsh", ["-f", "-c", ZshTest], "zsh", folder.Path);

        Assert.Equal("[coatscan inspect ]", said);
    }

    [Fact]
    public async Task Fish_completes_a_command_with_the_script()
    {
        using var folder = new TempFolder();
        var said = await RunAsync("fish", ["--no-config", "-c", FishTest], "fish", folder.Path);

        Assert.Equal("inspect", said);
    }

    [Fact]
    public async Task Pwsh_completes_a_command_with_the_script()
    {
        using var folder = new TempFolder();
        var said = await RunAsync("pwsh", ["-NoLogo", "-NoProfile", "-NonInteractive", "-Command", PwshTest], "pwsh", folder.Path);

        Assert.Equal("inspect", said);
    }

    // Skips where the shell is not installed.
    private static async Task<string> RunAsync(string program, string[] args, string shell, string folder)
    {
        var script = (await CommandLineRun.Of("completion", shell)).Out;
        var run = await ForeignProgram.TryRunAsync(
            program,
            args,
            ("SCRIPT", script),
            ("PROGRAM", Path.Combine(AppContext.BaseDirectory, "coatscan.dll")),
            ("HOME", folder),
            ("DOTNET_CLI_HOME", folder),
            ("RESULT", Path.Combine(folder, "said")));
        Assert.SkipWhen(run is null, $"{program} is not installed.");
        Assert.True(run!.Code == 0, run.Error);
        return run.Out.Trim();
    }

    // As a terminal does it: the line so far, its words, and where the cursor stands.
    private const string BashTest = """
        coatscan() { dotnet "$PROGRAM" "$@"; }
        eval "$SCRIPT"
        COMP_LINE='coatscan insp' COMP_POINT=13 COMP_WORDS=(coatscan insp) COMP_CWORD=1
        _coatscan
        echo "${COMPREPLY[@]}"
        """;

    // Only an interactive shell completes: one runs behind a pseudo-terminal and writes what its line became.
    private const string ZshTest = """
        zmodload zsh/zpty
        zpty line zsh -f -i
        zpty -w line 'autoload -Uz compinit; compinit -D -u; coatscan() { dotnet "$PROGRAM" "$@" }; eval "$SCRIPT"; tell() { print -r -- "[$BUFFER]" >"$RESULT" }; zle -N tell; bindkey "^X" tell; print >"$RESULT.ready"'
        until [[ -e $RESULT.ready ]]; do sleep 0.05; done
        zpty -w -n line $'coatscan insp\t\C-x'
        until [[ -s $RESULT ]]; do sleep 0.05; done
        zpty -d line
        cat "$RESULT"
        """;

    private const string FishTest = """
        function coatscan; dotnet $PROGRAM $argv; end
        echo $SCRIPT | source
        complete -C 'coatscan insp'
        """;

    private const string PwshTest = """
        function coatscan { dotnet $env:PROGRAM @args }
        Invoke-Expression $env:SCRIPT
        [System.Management.Automation.CommandCompletion]::CompleteInput('coatscan insp', 13, $null).CompletionMatches.CompletionText
        """;
}
