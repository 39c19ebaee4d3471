namespace CoatScan.Cli;

/// <summary>Exit codes of the program; fixed, scripts rely on them.</summary>
internal static class ExitCode
{
    /// <summary>All that was asked for is done.</summary>
    public const int Done = 0;

    /// <summary>Some photo or case failed, or the run was stopped.</summary>
    public const int SomeFailed = 1;

    /// <summary>The command line is wrong; nothing was done.</summary>
    public const int Usage = 2;

    /// <summary>The service does not answer or could not be started.</summary>
    public const int Unreachable = 3;
}
