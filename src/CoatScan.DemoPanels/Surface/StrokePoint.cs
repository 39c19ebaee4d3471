namespace CoatScan.DemoPanels.Surface;

/// <summary>One point of a drawn line.</summary>
internal readonly record struct StrokePoint(float X, float Y, float HalfWidthPx);
