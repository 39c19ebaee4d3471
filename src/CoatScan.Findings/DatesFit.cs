namespace CoatScan.Findings;

/// <summary>Whether stated dates fit.</summary>
public enum DatesFit
{
    /// <summary>Nothing that was said tells.</summary>
    CannotTell,

    /// <summary>What was said fits.</summary>
    Fits,

    /// <summary>Something that was said does not fit.</summary>
    DoesNotFit,
}
