namespace CoatScan.Cli;

/// <summary>Ends a command with one sentence on standard error.</summary>
internal sealed class CommandException : Exception
{
    private CommandException(int exitCode, string message, Exception? inner = null)
        : base(message, inner)
    {
        Code = exitCode;
    }

    /// <summary>Exit code of the program.</summary>
    public int Code { get; }

    /// <summary>The command line is wrong.</summary>
    public static CommandException Usage(string message) => new(ExitCode.Usage, message);

    /// <summary>The service does not answer or could not be started.</summary>
    public static CommandException Unreachable(string message, Exception? inner = null) =>
        new(ExitCode.Unreachable, message, inner);

    /// <summary>What was asked for does not exist or failed.</summary>
    public static CommandException Failed(string message) => new(ExitCode.SomeFailed, message);
}
