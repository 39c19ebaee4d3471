using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using CoatScan.Cli.Commands;
using CoatScan.Cli.Text;

namespace CoatScan.Cli;

/// <summary>The program <c>coatscan</c>, callable without a process.</summary>
public static class CommandLineProgram
{
    /// <summary>Runs one command line with plain output: 80 columns, no style.</summary>
    /// <inheritdoc cref="RunAsync(string[], TextReader, TextWriter, TextWriter, Terminal, CancellationToken)"/>
    public static Task<int> RunAsync(
        string[] args, TextReader input, TextWriter output, TextWriter error, CancellationToken cancellationToken) =>
        RunAsync(args, input, output, error, Terminal.Plain, cancellationToken);

    /// <summary>Runs one command line.</summary>
    /// <param name="args">Arguments, without the program's name.</param>
    /// <param name="input">Standard input; read by <c>rank -</c> only.</param>
    /// <param name="output">Standard output: findings and nothing else.</param>
    /// <param name="error">Standard error: complaints and progress.</param>
    /// <param name="terminal">What is known about the screen.</param>
    /// <param name="cancellationToken">Stops the run cleanly.</param>
    /// <returns>0 done, 1 some photo or case failed or the run was stopped, 2 usage, 3 service unreachable.</returns>
    public static async Task<int> RunAsync(
        string[] args,
        TextReader input,
        TextWriter output,
        TextWriter error,
        Terminal terminal,
        CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(args);
        var session = new Session(input, output, error, terminal);
        var parsed = Root(session).Parse(args, new ParserConfiguration
        {
            // A photo may well be called "@door.jpg": it is no file of further arguments.
            ResponseFileTokenReplacer = null,
        });
        var words = LanguageOption.Reader(parsed);
        try
        {
            if (OptionForValue(parsed, words) is { } missing)
            {
                await error.WriteLineAsync($"{missing}\n{Hint(parsed, words)}");
                return ExitCode.Usage;
            }

            if (parsed.Action is ParseErrorAction)
            {
                await error.WriteLineAsync(Complaint(parsed, words));
                return ExitCode.Usage;
            }

            if (parsed.Action is HelpAction)
            {
                HelpText.Say(parsed.RootCommandResult.Command, words);
                await using var help = new StringWriter();
                var code = await parsed.InvokeAsync(To(help, error), cancellationToken);
                await output.WriteAsync(HelpText.Say(help.ToString(), words));
                return code;
            }

            return await parsed.InvokeAsync(To(output, error), cancellationToken);
        }
        catch (CommandException complaint)
        {
            await error.WriteLineAsync(words.Complain(complaint.Message));
            return complaint.Code;
        }
        catch (OperationCanceledException) when (cancellationToken.IsCancellationRequested)
        {
            await error.WriteLineAsync(words.Fill("Stopped."));
            return ExitCode.SomeFailed;
        }
        finally
        {
            await output.FlushAsync(CancellationToken.None);
            await error.FlushAsync(CancellationToken.None);
        }
    }

    private static InvocationConfiguration To(TextWriter output, TextWriter error) => new()
    {
        Output = output,
        Error = error,
        EnableDefaultExceptionHandler = false,
        ProcessTerminationTimeout = null,
    };

    // The parser takes the word behind an option for its value, whatever it is.
    private static string? OptionForValue(ParseResult parsed, ReaderWords words)
    {
        var options = parsed.CommandResult.Command.Options.Concat(parsed.RootCommandResult.Command.Options)
            .SelectMany(option => option.Aliases.Prepend(option.Name)).ToHashSet(StringComparer.Ordinal);
        foreach (var given in parsed.CommandResult.Children.OfType<OptionResult>())
        {
            if (given.Tokens.FirstOrDefault(token => options.Contains(token.Value)) is { } value)
            {
                return words.Fill("{0} takes a value; '{1}' is an option.", given.Option.Name, value.Value);
            }
        }

        return null;
    }

    private static string Hint(ParseResult parsed, ReaderWords words) =>
        words.Fill("'coatscan {0} --help' explains the options.", parsed.CommandResult.Command.Name);

    private static string Complaint(ParseResult parsed, ReaderWords words)
    {
        if (parsed.CommandResult.Command is not RootCommand root)
        {
            return $"{words.Complain(parsed.Errors[0].Message)}\n{Hint(parsed, words)}";
        }

        var commands = string.Join(", ", root.Subcommands.Where(command => !command.Hidden).Select(command => command.Name));
        return parsed.UnmatchedTokens is [var word, ..]
            ? words.Fill("There is no command '{0}'. The commands are {1}.", word, commands)
            : words.Fill("Name a command: {0}. 'coatscan --help' explains them.", commands);
    }

    /// <summary>The commands.</summary>
    internal static RootCommand Root(Session session) => new(
        "Says what is wrong with the paint of a vehicle panel, why, who answers for it, what to do first,\n"
        + "what never to do and how sure that is. Exit codes: 0 done, 1 some photo or case failed,\n"
        + "2 the command line is wrong, 3 the service does not answer.")
    {
        HelpName = "coatscan",
        Options = { LanguageOption.Create() },
        Subcommands =
        {
            InspectCommand.Create(session),
            BatchCommand.Create(session),
            RankCommand.Create(session),
            SprayDayCommand.Create(session),
            ConditionsCommand.Create(session),
            EvidenceCommand.Create(session),
            ServeCommand.Create(),
            VerifyCommand.Create(session),
            KeysCommand.Create(session),
            AuditCommand.Create(session),
            BackupCommand.Create(session),
            RestoreCommand.Create(session),
            ScaleCardCommand.Create(session),
            PhotoGuideCommand.Create(session),
            CompletionCommand.Create(session),
            DecodeWorkerCommand.Create(),
        },
    };
}
