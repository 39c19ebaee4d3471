namespace CoatScan.Imaging.Cards;

/// <summary>A sheet to print on.</summary>
/// <param name="Name">Its name.</param>
/// <param name="WidthMm">Width, upright.</param>
/// <param name="HeightMm">Height, upright.</param>
public sealed record CardPaper(string Name, double WidthMm, double HeightMm)
{
    /// <summary>A4 (ISO 216).</summary>
    public static CardPaper A4 { get; } = new("A4", 210, 297);

    /// <summary>Letter, 8.5 by 11 inches (ANSI/ASME Y14.1).</summary>
    public static CardPaper Letter { get; } = new("LETTER", 215.9, 279.4);
}
