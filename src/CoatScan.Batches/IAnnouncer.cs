namespace CoatScan.Batches;

/// <summary>Tells other programs what came to rest.</summary>
public interface IAnnouncer
{
    /// <summary>Announces; ends when the announcement cannot get lost any more.</summary>
    Task AnnounceAsync(Announcement announcement, CancellationToken cancellationToken);
}
