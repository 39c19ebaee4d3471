namespace CoatScan.Findings;

/// <summary>A line on a photo that shows what was measured by.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Points">Its points in order, pixels of the original photo.</param>
public sealed record PhotoOutline(OutlineKind Kind, IReadOnlyList<OutlinePoint> Points);
