using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>How often an item is tried, and when again.</summary>
public static class AttemptRules
{
    /// <summary>Most attempts of an item.</summary>
    public const int MaxAttempts = 3;

    private static readonly TimeSpan[] Delays = [TimeSpan.Zero, TimeSpan.FromSeconds(5), TimeSpan.FromSeconds(30)];

    /// <summary>How long an item rests after an attempt failed by a fault of the service, which may need time to pass.</summary>
    /// <remarks>Not after its process ended: the next one that finds it has the whole service anew.</remarks>
    /// <param name="attempts">Attempts made, 1 or more.</param>
    public static TimeSpan DelayAfter(int attempts) => Delays[Math.Min(attempts, Delays.Length - 1)];

    /// <summary>Whether the same item may well succeed later: the fault lies with the service, not with what was sent.</summary>
    public static bool WorthAnotherAttempt(ErrorReason reason) => reason is
        ErrorReason.StorageUnavailable or ErrorReason.ServerBusy or ErrorReason.Draining or ErrorReason.WorkerLost or ErrorReason.InternalError;
}
