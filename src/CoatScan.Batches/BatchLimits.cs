namespace CoatScan.Batches;

/// <summary>How large batches and their parts may be.</summary>
public static class BatchLimits
{
    /// <summary>Most items of a batch.</summary>
    public const int MaxItems = 100_000;

    /// <summary>Most items added at once.</summary>
    public const int MaxItemsAtOnce = 1_000;

    /// <summary>Most photos of an item, which shows one panel.</summary>
    public const int MaxPhotos = 12;

    /// <summary>Most characters of a vehicle's reference.</summary>
    public const int MaxVehicleRefLength = 128;
}
