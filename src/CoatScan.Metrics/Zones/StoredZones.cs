namespace CoatScan.Metrics.Zones;

/// <summary>How well the colors of two zones survived being stored.</summary>
/// <param name="First">Of the first.</param>
/// <param name="Second">Of the second.</param>
public sealed record StoredZones(StoredColor First, StoredColor Second)
{
    /// <summary>Both with a loss that nothing tells.</summary>
    public static StoredZones Unknown { get; } = new(StoredColor.Unknown, StoredColor.Unknown);
}
