namespace CoatScan.Batches;

/// <summary>Life of a batch.</summary>
public enum BatchState
{
    /// <summary>Takes items.</summary>
    Open,

    /// <summary>Its items are being graded.</summary>
    Running,

    /// <summary>Every item has a finding or an error.</summary>
    Succeeded,

    /// <summary>Stopped by the caller; items in progress may still finish.</summary>
    Cancelled,
}
