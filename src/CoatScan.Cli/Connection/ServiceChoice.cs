namespace CoatScan.Cli.Connection;

/// <summary>Which service a command talks to.</summary>
/// <param name="Server">Address of a running service; null to run one inside this process.</param>
/// <param name="DataFolder">Data folder of the service inside this process; null for the user's.</param>
internal sealed record ServiceChoice(Uri? Server, string? DataFolder)
{
    /// <summary>API key or token for the running service; null for none.</summary>
    public string? Credential { get; init; }

    /// <summary>Whether the service inside this process works on batches; other commands leave them alone.</summary>
    public bool GradeBatches { get; init; }
}
