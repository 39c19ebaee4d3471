namespace CoatScan.Findings;

/// <summary>Where a scale comes from.</summary>
public enum ScaleSource
{
    /// <summary>There is none.</summary>
    None,

    /// <summary>The caller stated it.</summary>
    Caller,

    /// <summary>A scale card in the photo.</summary>
    Card,
}
