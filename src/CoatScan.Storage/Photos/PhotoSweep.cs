namespace CoatScan.Storage.Photos;

/// <summary>What one round of housekeeping did.</summary>
/// <param name="HalfReceived">Half-received files removed.</param>
/// <param name="Expired">Photos marked because their retention ended.</param>
/// <param name="Removed">Marked photos removed for good.</param>
/// <param name="Stray">Files without a row removed.</param>
public sealed record PhotoSweep(int HalfReceived, int Expired, int Removed, int Stray)
{
    /// <summary>There was nothing to do.</summary>
    public static PhotoSweep Nothing { get; } = new(0, 0, 0, 0);
}
