namespace CoatScan.Findings;

/// <summary>Where a scale comes from.</summary>
public enum ScaleSource
{
    /// <summary>There is none.</summary>
    None,

    /// <summary>The caller stated it.</summary>
    Caller,
}
