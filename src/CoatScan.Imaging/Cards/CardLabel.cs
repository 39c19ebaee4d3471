namespace CoatScan.Imaging.Cards;

/// <summary>One line of text on a card or beside it.</summary>
/// <param name="XMm">Left end from the card's left edge.</param>
/// <param name="YMm">Baseline from the card's top edge.</param>
/// <param name="SizeMm">Size of the type.</param>
/// <param name="Text">The text.</param>
public readonly record struct CardLabel(double XMm, double YMm, double SizeMm, string Text);
