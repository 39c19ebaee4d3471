namespace CoatScan.Imaging.Cards;

/// <summary>The centers of a code's three finder patterns, pixels; (0, 0) is the corner of the first pixel.</summary>
internal sealed record FinderPatterns((double X, double Y) UpperLeft, (double X, double Y) UpperRight, (double X, double Y) LowerLeft);
