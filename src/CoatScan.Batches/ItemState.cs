namespace CoatScan.Batches;

/// <summary>Life of an item.</summary>
public enum ItemState
{
    /// <summary>Waits for a worker.</summary>
    Queued,

    /// <summary>A worker holds its lease.</summary>
    Running,

    /// <summary>Has its finding.</summary>
    Graded,

    /// <summary>Has its error: a photo is unusable, or the attempts are used up.</summary>
    Failed,

    /// <summary>Never graded, because the batch was cancelled.</summary>
    Cancelled,
}
