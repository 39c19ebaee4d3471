namespace CoatScan.Storage.Engines;

/// <summary>The clock of the database's server, so that machines whose clocks differ agree on when a lease ends.</summary>
/// <remarks>
/// Each write reads the server's time; between writes time goes on by this machine's monotonic counter, which nobody sets.
/// Before the first write it is this machine's own clock.
/// </remarks>
internal sealed class ServerClock(TimeProvider local) : TimeProvider
{
    private volatile Reading? _last;

    /// <inheritdoc/>
    public override DateTimeOffset GetUtcNow() =>
        _last is { } last ? last.Time + local.GetElapsedTime(last.Timestamp) : local.GetUtcNow();

    /// <summary>Notes what the server's clock shows.</summary>
    public void Set(DateTimeOffset time) => _last = new Reading(time, local.GetTimestamp());

    private sealed record Reading(DateTimeOffset Time, long Timestamp);
}
