namespace CoatScan.Reports;

/// <summary>Size of the paper, upright.</summary>
/// <param name="Name">Name as on the command line.</param>
/// <param name="WidthMm">Width, millimeters.</param>
/// <param name="HeightMm">Height, millimeters.</param>
public sealed record Paper(string Name, double WidthMm, double HeightMm)
{
    /// <summary>ISO 216 A4.</summary>
    public static Paper A4 { get; } = new("a4", 210, 297);

    /// <summary>US Letter.</summary>
    public static Paper Letter { get; } = new("letter", 215.9, 279.4);
}
