namespace CoatScan.Findings;

/// <summary>Who brought a piece of evidence.</summary>
public enum EvidenceOrigin
{
    /// <summary>The caller named it.</summary>
    Caller,

    /// <summary>A reading that the caller sent says so.</summary>
    Reading,

    /// <summary>The photos show it.</summary>
    Photo,
}
