namespace CoatScan.Classification;

/// <summary>Rectangle of the planes that is looked at on its own.</summary>
/// <param name="X">Left edge, pixels of the planes.</param>
/// <param name="Y">Top edge, pixels of the planes.</param>
/// <param name="Width">Width, pixels of the planes, at least 1.</param>
/// <param name="Height">Height, pixels of the planes, at least 1.</param>
public readonly record struct TileBox(int X, int Y, int Width, int Height);
