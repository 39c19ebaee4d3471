namespace CoatScan.Imaging.Cards;

/// <summary>What the neutral places of a card, paper and gray patches, say about the light.</summary>
/// <param name="RedGain">Factor on linear red that makes them neutral, above 0; null if they do not agree on one.</param>
/// <param name="BlueGain">The same for blue; null together with <paramref name="RedGain"/>.</param>
/// <param name="Uncertainty">Relative uncertainty of the gains, 95 % half width; null without them. From how far the places differ, and
/// how far paper and ink may be from neutral.</param>
/// <param name="PaperLevel">Linear level of the card's paper in green, [0, 1], 1 is clipped; null if the paper is clipped, hidden or
/// unevenly lit.</param>
/// <param name="Says">What was found, a part of a sentence.</param>
public sealed record GrayReading(double? RedGain, double? BlueGain, double? Uncertainty, double? PaperLevel, string Says);
