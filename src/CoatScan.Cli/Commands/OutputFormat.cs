namespace CoatScan.Cli.Commands;

/// <summary>What the program writes to standard output.</summary>
internal enum OutputFormat
{
    /// <summary>Text for people.</summary>
    Text,

    /// <summary>One JSON object a line.</summary>
    Json,
}
