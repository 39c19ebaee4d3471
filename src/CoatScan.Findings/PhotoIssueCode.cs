namespace CoatScan.Findings;

/// <summary>What can limit trust in a photo.</summary>
public enum PhotoIssueCode
{
    /// <summary>Out of focus or moved.</summary>
    Blurred,

    /// <summary>Large clipped highlights.</summary>
    Glare,

    /// <summary>Too dark to separate marks from noise.</summary>
    TooDark,

    /// <summary>Too few pixels on the panel.</summary>
    LowResolution,

    /// <summary>No usable scale: lengths are in pixels.</summary>
    NoScale,
}
