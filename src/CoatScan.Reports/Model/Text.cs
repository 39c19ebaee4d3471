namespace CoatScan.Reports;

/// <summary>A run of text of one look; what was written by others goes in as it is, each writer escapes for itself.</summary>
/// <param name="Value">The text.</param>
/// <param name="Strong">Whether it stands out.</param>
/// <param name="Href">Where it leads: a file beside the sheet, with an anchor where there is one; empty for nowhere.</param>
public sealed record Text(string Value, bool Strong = false, string Href = "")
{
    /// <summary>Plain text.</summary>
    public static implicit operator Text(string value) => new(value);

    /// <summary>Plain text.</summary>
    public static Text FromString(string value) => new(value);

    /// <summary>Text that stands out.</summary>
    public static Text Bold(string value) => new(value, Strong: true);
}
