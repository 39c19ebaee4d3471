namespace CoatScan.Cli.Commands;

/// <summary>What the program writes to standard output and, with <c>--out</c>, into the folder.</summary>
internal enum OutputFormat
{
    /// <summary>Text for people.</summary>
    Text,

    /// <summary>One JSON object a line.</summary>
    Json,

    /// <summary>Sheets as HTML in the folder; a line a sheet here.</summary>
    Html,

    /// <summary>Sheets as PDF in the folder; a line a sheet here.</summary>
    Pdf,

    /// <summary>One row of CSV a finding.</summary>
    Csv,
}
