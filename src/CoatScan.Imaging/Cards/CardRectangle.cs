namespace CoatScan.Imaging.Cards;

/// <summary>One rectangle of a card.</summary>
/// <param name="XMm">Left edge from the card's left edge.</param>
/// <param name="YMm">Top edge from the card's top edge.</param>
/// <param name="WidthMm">Width.</param>
/// <param name="HeightMm">Height.</param>
/// <param name="Reflectance">Nominal reflectance relative to the paper, [0, 1]; 0 is full black ink.</param>
public readonly record struct CardRectangle(double XMm, double YMm, double WidthMm, double HeightMm, double Reflectance);
