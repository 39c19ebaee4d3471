namespace CoatScan.Findings;

/// <summary>What kind of photos the naming of a visual class was checked on.</summary>
public enum ClassCheckBasis
{
    /// <summary>Rendered, invented panels only: nobody knows how often it is right on real photos.</summary>
    RenderedOnly,

    /// <summary>Real photos, labelled by eye.</summary>
    RealPhotos,
}
