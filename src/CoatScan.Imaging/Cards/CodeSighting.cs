namespace CoatScan.Imaging.Cards;

/// <summary>A code that was read, with the centers of its three finder patterns, pixels; (0, 0) is the corner of the first pixel.</summary>
internal sealed record CodeSighting(
    CardMessage Message, (double X, double Y) UpperLeft, (double X, double Y) UpperRight, (double X, double Y) LowerLeft);
