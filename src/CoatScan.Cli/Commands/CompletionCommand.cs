using System.CommandLine;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan completion</c>: prints what a shell needs to complete command lines.</summary>
internal static class CompletionCommand
{
    // Each asks the program itself, by System.CommandLine's directive, so that no list has to be kept.
    private static readonly Dictionary<string, string> Scripts = new(StringComparer.Ordinal)
    {
        ["bash"] = """
            # In ~/.bashrc: eval "$(coatscan completion bash)"
            _coatscan() {
              local IFS=$'\n'
              COMPREPLY=($(compgen -W "$(coatscan "[suggest:${COMP_POINT}]" "${COMP_LINE}" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}"))
              if ((${#COMPREPLY[@]} == 0)); then
                COMPREPLY=($(compgen -f -- "${COMP_WORDS[COMP_CWORD]}"))
              fi
            }
            complete -o filenames -F _coatscan coatscan
            """,
        ["zsh"] = """
            # In ~/.zshrc, after compinit: eval "$(coatscan completion zsh)"
            _coatscan() {
              local -a found
              found=("${(@f)$(coatscan "[suggest:${CURSOR}]" "${BUFFER}" 2>/dev/null)}")
              compadd -a found
              _files
            }
            compdef _coatscan coatscan
            """,
        ["fish"] = """
            # In ~/.config/fish/completions/coatscan.fish: coatscan completion fish | source
            complete -c coatscan -a '(coatscan "[suggest:"(string length -- (commandline -cp))"]" (commandline -cp) 2>/dev/null)'
            """,
        ["pwsh"] = """
            # In $PROFILE: coatscan completion pwsh | Out-String | Invoke-Expression
            Register-ArgumentCompleter -Native -CommandName coatscan -ScriptBlock {
              param($word, $tree, $cursor)
              coatscan "[suggest:$cursor]" "$tree" 2>$null | Where-Object { $_ -like "$word*" } |
                ForEach-Object { [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_) }
            }
            """,
    };

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var shell = new Argument<string>("shell") { Description = "The shell: " + string.Join(", ", Scripts.Keys) + "." };
        shell.AcceptOnlyFromAmong([.. Scripts.Keys]);
        var command = new Command("completion", "Prints a script that completes command lines; its first line says where it goes.") { shell };
        command.SetAction((parsed, _) => session.Out.WriteLineAsync(Scripts[parsed.GetValue(shell)!]));
        return command;
    }
}
