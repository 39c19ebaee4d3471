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

    /// <summary>The stated scale is not that of the card in the photo.</summary>
    ScaleConflict,

    /// <summary>The panel is seen at a slant, so that one scale does not fit all directions.</summary>
    Oblique,

    /// <summary>The panel is seen at so steep a slant that no length or area is given.</summary>
    TooOblique,

    /// <summary>So noisy that fine marks are no stronger than the noise.</summary>
    Noisy,

    /// <summary>Compressed so strongly that fine texture was lost.</summary>
    Compressed,

    /// <summary>A photo of a display: its lattice lies over everything.</summary>
    ScreenPhoto,

    /// <summary>The marks have too few pixels to tell their shape.</summary>
    FaultTooSmall,

    /// <summary>One even tone: nothing in it tells that it is a panel.</summary>
    Featureless,
}
