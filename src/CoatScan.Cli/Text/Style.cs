namespace CoatScan.Cli.Text;

/// <summary>How a piece of text is set off on a terminal; nothing is lost where styles are off.</summary>
internal enum Style
{
    /// <summary>As the rest.</summary>
    None,

    /// <summary>Set off.</summary>
    Strong,

    /// <summary>Set back.</summary>
    Faint,
}
