using CoatScan.Imaging.Color;

namespace CoatScan.Imaging.Cards;

/// <summary>A card's code that was read.</summary>
/// <param name="Message">What it says.</param>
/// <param name="Map">Where its modules are, to about a quarter of a module: from modules, (0, 0) at the code's upper left corner, to
/// pixels, (0, 0) at the corner of the first pixel.</param>
internal sealed record CodeSighting(CardMessage Message, Matrix3 Map);
