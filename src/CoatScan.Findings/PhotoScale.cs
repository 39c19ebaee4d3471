namespace CoatScan.Findings;

/// <summary>Scale of a photo.</summary>
/// <param name="Source">Where the scale comes from.</param>
/// <param name="MmPerPx">Millimeters per pixel of the oriented original photo, above 0; null if unknown.</param>
public sealed record PhotoScale(ScaleSource Source, double? MmPerPx)
{
    /// <summary>No scale.</summary>
    public static PhotoScale Unknown { get; } = new(ScaleSource.None, null);
}
