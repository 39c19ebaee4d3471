using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>Why an item has no finding.</summary>
/// <param name="Reason">The reason, as a call would answer it.</param>
/// <param name="Message">One sentence.</param>
/// <param name="Field">Field at fault, seen from the item, for example <c>photos[2]</c>; null if none is.</param>
/// <param name="Metadata">Every variable of the message, by name.</param>
public sealed record ItemError(
    ErrorReason Reason, string Message, string? Field, IReadOnlyDictionary<string, string> Metadata)
{
    /// <summary>The error that a refusal leaves.</summary>
    public static ItemError Of(CoatScanException refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        return new(refusal.Reason, refusal.Message, refusal.Field, refusal.Metadata);
    }

    /// <summary>The process went away, and no attempt is left.</summary>
    public static ItemError WorkerLost(int attempts) => new(
        ErrorReason.WorkerLost,
        $"The worker process ended during the last of {attempts} attempts; a photo of the item may be the cause.",
        null,
        new Dictionary<string, string> { ["attempts"] = $"{attempts}" });

    /// <summary>No process lived long enough to claim the item.</summary>
    public static ItemError GivenUp() => new(
        ErrorReason.WorkerLost,
        "Every worker process that was handed the item ended before it could begin.",
        null,
        new Dictionary<string, string>());

    /// <summary>A fault of ours; nothing of its inside goes out.</summary>
    public static ItemError Internal() => new(
        ErrorReason.InternalError,
        "The service failed while it graded the item; its log says why.",
        null,
        new Dictionary<string, string>());
}
